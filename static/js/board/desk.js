/** The coach's desk: what a tap sends, in what order, and what is done when the answer comes. */

import { openApart } from "./apart.js";
import { openCrossing } from "./crossing.js";
import { begins, builtOn, leavesLine, linesOf, settings } from "../offline/conflicts.js";
import { backOnSpots, saidStep } from "../offline/local-steps.js";
import { keepMenus } from "../offline/menus.js";
import { openMemory } from "../offline/queue.js";
import { openPacks } from "../offline/shelf.js";
import { walk } from "../offline/walk.js";
import { noteRefusal } from "../device/kept-copy.js";
import { sayBoard } from "../words/board-words.js";
import { openLink } from "../state/link.js";
import { follows, hold, lastChange, nextBase, positionKey, shown, standingAt } from "../state/state.js";
import { openTakingBack } from "./taking-back.js";
import { boardOf, newId, nothing, wire } from "./sent.js";

/**
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/state.js").Pending} Pending
 * @typedef {import("../state/state.js").Context} Context
 * @typedef {import("../state/wire.js").Offer} Offer
 * @typedef {import("../state/wire.js").StepWire} StepWire
 *
 * @typedef {import("./sent.js").Setup} Setup
 * @typedef {import("./sent.js").Opened} Opened
 *
 * @typedef {DeskItself & import("./taking-back.js").TakingBack} Desk
 *
 * @typedef {object} DeskItself
 * @property {State} state  what waits for an answer done in it
 * @property {(offer: Offer, depth: number) => void} act  play this after so many steps
 * @property {(depth: number, where: Record<string, import("../state/wire.js").Point>) => string | null} recover  everybody
 *   back on spots from where they are, after so many steps; returns what the answer will be known by, null: it is done
 * @property {(depth: number, text: string) => boolean} script  play what was drawn, by its text form, after so many
 *   steps; false: it cannot be played there
 * @property {(setup: Setup) => void} setup
 * @property {(depth: number) => void} look  ask for what could be tapped after so many steps of the saved chain
 * @property {(depth: number) => import("../state/state.js").Menu | null} menuAt  what may be tapped after so many steps
 * @property {() => void} fresh
 * @property {(message: import("./showing.js").Shown) => void} show  tell phones what is looked at here
 * @property {() => void} join  show the branch that another coach has gone to
 * @property {(chain: Opened) => boolean} open  put a line on the board, so many steps of it played; false: that
 *   cannot be shown before the server answers
 * @property {import("../offline/shelf.js").PackShelf} packs
 * @property {import("./crossing.js").Ways} crossing  where undo and redo lead, where that is no step
 *
 * @typedef {object} Listeners
 * @property {(now: State, before: State) => void} changed
 * @property {(line: Context, whole: boolean) => void} aside  kept as a way of its own, as somebody else had moved the board
 */

/** Refusals after which the same may be sent again. */
const PASSING = ["failed", "taken_over", "too_fast"];

/**
 * @param {string} socket  path
 * @param {string} board  its id
 * @param {Listeners} listen
 * @returns {Desk}
 */
export function openDesk(socket, board, listen) {
  const memory = openMemory(board, (ids) => {
    store.change({ pending: store.state.pending.map((sent) => (ids.has(sent.id) ? { ...sent, kept: true } : sent)) });
  });
  const store = hold((now, before) => {
    memory.note(now, before);
    listen.changed(shown(now), shown(before));
  });
  const packs = openPacks(board, () => store.state.known && store.change({}));
  /** What the server says before this device has remembered what it knows. @type {import("../state/wire.js").Message[] | null} */
  let early = [];

  const link = openLink(socket, {
    seen: () => (store.state.known ? store.state.seq : null),
    message: (message) => (early ? void early.push(message) : hear(message)),
    state: (state) => {
      if (store.state.link === state) return;
      store.change({ link: state });
      if (state === "live") void packs.refresh();
    },
  });

  const crossing = openCrossing(() => shown(store.state));
  const apart = openApart(store, () => link.again());
  /** What is played on here while another coach is on another branch takes the board back to this one: whether it did. */
  function takeBack() {
    const line = apart.leave();
    if (!line) return false;
    crossing.forget();
    const { formation, rules } = /** @type {import("../state/wire.js").Board} */ (line.board);
    const message = { t: "open", chain: line.chain.id, formation, rules, line: line.steps.map(({ a }) => a), depth: line.depth };
    send("line", message, { line });
    store.change({ notice: sayBoard("branch_back") });
    return true;
  }

  /** @param {import("../state/wire.js").Message} message */
  function hear(message) {
    if (message.t === "gone" && noteRefusal(message.code)) return;
    if (apart.takes(message)) return;
    if (!follows(store.state, message)) return link.again();
    if (message.t === "refused") return refused(message);
    const kept = message.t === "kept" ? store.state.pending.find(({ id }) => id === message.id) : null;
    store.receive(message);
    if (kept && message.t === "kept") beside({ ...kept.context, line: kept.context.line.slice(0, message.legal) }, message.legal === message.of);
    if (message.t === "state") link.keep(new Set(store.state.pending.map((sent) => sent.id)));
  }

  /** What was kept as a way of its own is told of, unless somebody else has just done the same. @param {Context} line @param {boolean} whole */
  function beside(line, whole) {
    const { chain, steps } = store.state;
    if (chain?.id !== line.chain || !begins(line.line, steps.map(({ a }) => a))) listen.aside(line, whole);
  }

  /** @param {import("../state/wire.js").RefusedMessage} message */
  function refused({ id, code, message }) {
    const { pending } = store.state;
    const found = pending.find((sent) => sent.id === id);
    if (PASSING.includes(code)) {
      if (found) link.sendAgain(wire(found), code === "failed");
      return store.change({ notice: message });
    }
    // Of what has been set aside already.
    if (id !== null && !found) return;
    const gone = found ? builtOn(pending, found) : pending.filter(({ kind }) => kind !== "keep");
    const others = pending.filter((sent) => !gone.includes(sent));
    // A tap that was all right here is kept as well, as it may have been made long ago.
    if (code === "stale" || gone.some(({ kind }) => kind === "act" || kind === "line")) {
      if (code !== "stale") store.change({ notice: message });
      else if (gone.every(({ kind, message: { t, undo } }) => kind === "undo" || (t === "open" && undo))) {
        store.change({ notice: sayBoard("undo_too_late") });
      }
      return setAside(others, gone);
    }
    store.change({ pending: others, notice: message });
    link.keep(new Set(others.map((sent) => sent.id)));
    link.again();
  }

  /** Somebody else has moved the board: what was played here is kept beside it. @param {Pending[]} others @param {Pending[]} gone */
  function setAside(others, gone) {
    const again = settings(gone);
    const lines = linesOf(gone).map((context) => {
      const { chain, formation, rules, line } = context;
      return /** @type {Pending} */ ({ id: newId(), base: -1, kind: "keep", message: { t: "keep", chain, formation, rules, line }, context });
    });
    store.change({ pending: [...others, ...lines] });
    link.keep(new Set(others.map(({ id }) => id)));
    for (const sent of lines) post(sent);
    for (const { kind, message, places } of again) send(kind, message, places ? { places } : {});
    link.again();
  }

  /** @param {Pending} sent */
  const post = (sent) => link.send(wire(sent));

  /**
   * @param {Pending["kind"]} kind
   * @param {Record<string, unknown>} message
   * @param {Partial<Pick<Pending, "at" | "step" | "places" | "line">>} [effect]
   */
  function send(kind, message, effect = {}) {
    const { state } = store;
    /** @type {Pending} */
    const sent = { id: newId(), base: nextBase(state), after: lastChange(state) ?? undefined, kind, message, context: nothing(board), when: Math.floor(Date.now() / 1000), ...effect };
    const now = shown({ ...state, pending: [...state.pending, sent] });
    sent.context = {
      chain: now.chain?.id ?? "", formation: now.board.formation, rules: now.board.rules, line: now.steps.map(({ a }) => a),
    };
    const leaves = kind === "line" || message.t === "open" || message.t === "fresh" || message.chain !== undefined;
    if (leaves) crossing.forget();
    else crossing.acted(kind === "undo" || kind === "redo" ? kind : kind === "act" || message.t === "recover" ? "step" : "other");
    store.change({ pending: [...state.pending, sent] });
    post(sent);
    return sent.id;
  }

  /** The pack of what is on the board, if this device has it. @param {State} state */
  const packOf = ({ board: { rules, formation, court } }) => packs.get({ rules, formation, court });
  /** Whether a line has been asked for that only the server can show: what is on the board now is on its way out. */
  const unsure = () => store.state.pending.some(leavesLine);
  const menuOf = keepMenus();
  /** What was looked at last: asked once, unless what we hold was thrown away meanwhile. */
  let asked = { seq: -1, depth: -1, menus: store.state.menus };

  const back = openTakingBack(() => desk, {
    crossing, takeBack, unsure,
    step: (kind) => send(kind, { t: kind }),
    say: (notice) => store.change({ notice }),
  });
  /** @type {Desk} */
  const desk = {
    packs,
    get crossing() {
      return crossing.ways;
    },
    get state() {
      return shown(store.state);
    },
    /** @param {Offer} offer @param {number} depth */
    act({ a, say, who, ball, tl, after }, depth) {
      takeBack();
      if (unsure()) return;
      const at = store.state.first + depth;
      send("act", { t: "act", at, a }, { at, step: { a, say, who, ball, tl, after } });
    },
    ...back,
    join: apart.join,
    show: (/** @type {import("./showing.js").Shown} */ message) => link.send(/** @type {any} */ (message)),
    /** @param {number} depth @param {Record<string, import("../state/wire.js").Point>} where */
    recover(depth, where) {
      takeBack();
      const { state } = desk;
      const at = store.state.first + depth;
      const held = packOf(state);
      if (unsure()) return null;
      if (!held) return send("other", { t: "recover", at, where });
      const { spots, step } = backOnSpots(held.pack, where, standingAt(state, state.steps, depth), state.floor.spots);
      send("act", { t: "recover", at, where, spots }, { at, step });
      return null;
    },
    /** @param {number} depth @param {string} text */
    script(depth, text) {
      takeBack();
      const { state } = desk;
      const step = unsure() ? null : saidStep(text, standingAt(state, state.steps, depth), state.floor.spots);
      const at = store.state.first + depth;
      if (step) send("act", { t: "act", at, a: step.a }, { at, step });
      return step !== null;
    },
    /** @param {Setup} setup */
    setup({ ...setup }) {
      const { formation: shape = store.state.board.formation, rules: set = store.state.board.rules } = setup;
      // What begins a new chain leaves this one; who comes in, or how fast they run, is of the chain that is looked at.
      if (shape === store.state.board.formation && set === store.state.board.rules) takeBack();
      else apart.join();
      const { state } = desk;
      const { formation = state.board.formation, rules = state.board.rules, court = state.board.court } = setup;
      if (formation === state.board.formation && rules === state.board.rules) {
        return void send("other", { t: "setup", ...setup }, setup.places ? { places: setup.places } : {});
      }
      const chain = { id: newId(), name: "", kept: false };
      const message = { t: "setup", ...setup, chain: chain.id };
      const held = unsure() ? null : packs.get({ formation, rules, court });
      const { level = state.board.level, stage } = setup;
      const line = held && { board: { ...boardOf(held, state, stage), court, level }, start: held.head.start, floor: held.head.floor, chain, steps: [], depth: 0 };
      send(line ? "line" : "other", message, { ...(line ? { line } : {}), ...(setup.places ? { places: setup.places } : {}) });
    },
    fresh() {
      apart.join();
      const { state } = desk;
      if (unsure()) return;
      const chain = { id: newId(), name: "", kept: false };
      const line = { board: {}, start: state.start, floor: state.floor, chain, steps: [], depth: 0 };
      // A chain whose beginning is not held cannot be left for a new one before the server answers.
      send(state.first ? "other" : "line", { t: "fresh", chain: chain.id }, state.first ? {} : { line });
    },
    /** @param {Opened} opened */
    open({ id, formation, rules, line, depth, undo }) {
      apart.join();
      const { state } = desk;
      const message = { t: "open", chain: id, formation, rules, line, depth, ...(undo ? { undo } : {}) };
      const refs = { formation, rules, court: state.board.court };
      const held = packs.get(refs);
      if (!held && packs.has(refs)) {
        // It is on the device and only has to be read. One that cannot be is the server's to show.
        void packs.load(refs).then((found) => (found ? desk.open({ id, formation, rules, line, depth, undo }) : send("other", message)));
        return true;
      }
      if (unsure() || (!held && state.link !== "live")) return false;
      const left = crossing.leave();
      const steps = held ? walk(held, line, state.board.level) : [];
      if (!held || steps.length < line.length) {
        send("other", message);
        return true;
      }
      const { start, floor } = held.head;
      const chain = state.chain?.id === id ? state.chain : { id, name: "", kept: false };
      send("line", message, { line: { board: boardOf(held, state), start, floor, chain, steps, depth } });
      crossing.went(left, { id, formation, rules, line, depth });
      return true;
    },
    /** @param {number} depth */
    menuAt(depth) {
      const { state } = desk;
      const standing = standingAt(state, state.steps, depth);
      if (standing.over || standing.off) return { offers: [], withheld: [] };
      const known = state.menus.get(positionKey(standing));
      if (known) return known;
      const held = packOf(state);
      return held && menuOf(held.pack, state, standing);
    },
    /** @param {number} depth */
    look(depth) {
      const { seq, first, link: line, pending, steps, menus } = store.state;
      if (line !== "live" || pending.length || apart.is || depth >= steps.length) return;
      if (asked.seq === seq && asked.depth === depth && asked.menus === menus) return;
      asked = { seq, depth, menus };
      link.send(/** @type {any} */ ({ t: "look", at: first + depth }));
    },
  };

  memory.recall().catch(() => null).then((found) => {
    if (found) {
      store.recall(found.state, found.pending);
      for (const sent of found.pending) post(sent);
    }
    const heard = early ?? [];
    early = null;
    heard.forEach(hear);
  });
  return desk;
}
