/** The coach's desk: what a tap sends, in what order, and what is done when the answer comes. */

import { noteRefusal } from "./device.js";
import { openLink } from "./link.js";
import { follows, hold, nextBase, shown } from "./state.js";

/**
 * @typedef {import("./state.js").State} State
 * @typedef {import("./wire.js").Offer} Offer
 * @typedef {import("./wire.js").StepWire} StepWire
 *
 * @typedef {object} Setup
 * @property {string} [formation]
 * @property {string} [court]
 * @property {number} [level]
 * @property {string} [rules]
 * @property {number | null} [stage]
 * @property {Record<string, string | null>} [places]  player of the squad, or nobody in particular
 *
 * @typedef {object} Desk
 * @property {State} state
 * @property {(offer: Offer, depth: number) => void} act  play this after so many steps
 * @property {() => void} undo
 * @property {(count: number) => void} undoTo  until so many steps are left
 * @property {() => void} redo
 * @property {(depth: number, where: Record<string, import("./wire.js").Point>) => string} recover  everybody back on
 *   spots from where they are, after so many steps; returns what the answer will be known by
 * @property {(setup: Setup) => void} setup
 * @property {(depth: number) => void} look  ask for what could be tapped after so many steps of the saved chain
 * @property {() => void} fresh
 * @property {(chain: {id: string, formation: string, rules: string, line: string[][], depth: number}) => void} [open]
 *   put the board on a line of a chain, after so many of its steps, the rest ahead
 */

/** A name of its own for each thing sent; plain HTTP pages have no `randomUUID`. */
function newId() {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/**
 * @param {string} socket  path
 * @param {(now: State, before: State) => void} listen
 * @returns {Desk}
 */
export function openDesk(socket, listen) {
  const store = hold(listen);
  const link = openLink(socket, {
    seen: () => (store.state.known ? store.state.seq : null),
    message(message) {
      if (message.t === "gone") noteRefusal(message.code);
      if (!follows(store.state, message)) return link.again();
      store.receive(message);
      if (message.t === "refused" || message.t === "state") {
        link.keep(new Set(store.state.pending.map((sent) => sent.id)));
      }
      // What was sent behind a refused tap is gone with it; make sure we show what is saved.
      if (message.t === "refused" && message.code !== "stale") link.again();
    },
    state: (state) => {
      if (store.state.link !== state) store.change({ link: state });
    },
  });

  /**
   * @param {import("./state.js").Pending["kind"]} kind
   * @param {Record<string, unknown>} message
   * @param {{at?: number, step?: StepWire, places?: Record<string, string | null>}} [effect]
   */
  const send = (kind, message, effect = {}) => {
    const sent = { id: newId(), base: nextBase(store.state), kind, ...effect };
    store.change({ pending: [...store.state.pending, sent] });
    link.send(/** @type {any} */ ({ ...message, id: sent.id, base: sent.base }));
    return sent.id;
  };
  /** What was looked at last: asked once, unless what we hold was thrown away meanwhile. */
  let asked = { seq: -1, depth: -1, menus: store.state.menus };

  const desk = {
    get state() {
      return store.state;
    },
    /** @param {Offer} offer @param {number} depth */
    act({ a, say, who, ball, tl, after }, depth) {
      const at = store.state.first + depth;
      send("act", { t: "act", at, a }, { at, step: { a, say, who, ball, tl, after } });
    },
    undo() {
      if (shown(store.state).steps.length) send("undo", { t: "undo" });
    },
    /** @param {number} count */
    undoTo(count) {
      while (shown(store.state).steps.length > count) desk.undo();
    },
    redo() {
      if (shown(store.state).ahead > 0) send("redo", { t: "redo" });
    },
    /** @param {number} depth @param {Record<string, import("./wire.js").Point>} where */
    recover: (depth, where) => send("other", { t: "recover", at: store.state.first + depth, where }),
    /** @param {Setup} setup */
    setup: (setup) => void send("other", { t: "setup", ...setup }, setup.places ? { places: setup.places } : {}),
    fresh: () => void send("other", { t: "fresh" }),
    /** @param {number} depth */
    look(depth) {
      const { seq, first, link: line, pending, steps, menus } = store.state;
      if (line !== "live" || pending.length || depth >= steps.length) return;
      if (asked.seq === seq && asked.depth === depth && asked.menus === menus) return;
      asked = { seq, depth, menus };
      link.send(/** @type {any} */ ({ t: "look", at: first + depth }));
    },
  };
  return desk;
}
