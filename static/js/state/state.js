/**
 * What the board knows, in one plain object, changed by two functions only: `receive` for what the server
 * says, `change` for what this person does. Pure but for the list of listeners.
 */

import { along, shown, wayOf } from "./overlay.js";
import { sayBoard } from "../words/board-words.js";

/**
 * @typedef {import("./wire.js").Message} Message
 * @typedef {import("./wire.js").OffersMessage} OffersMessage
 * @typedef {import("./wire.js").StepWire} StepWire
 * @typedef {import("./wire.js").Standing} Standing
 * @typedef {import("./wire.js").Offer} Offer
 *
 * @typedef {object} Pending  something sent that the server has not answered yet
 * @property {string} id
 * @property {number} base  the server's count of changes it follows on; -1: on nothing
 * @property {string} [after]  id of the change it follows on
 * @property {"act" | "undo" | "redo" | "line" | "keep" | "other"} kind
 * @property {number} [at]  act: how many steps stand before it
 * @property {StepWire} [step]  act: the step
 * @property {Record<string, string | null>} [places]  who is to play which place
 * @property {Shown} [line]  line: what the board comes to
 * @property {number} [when]  when it was done, seconds since 1970
 * @property {Record<string, unknown>} message  what was sent, but for `id`, `base` and `after`
 * @property {Context} context  what was played once it was done
 * @property {boolean} [kept]  this device will remember it
 *
 * @typedef {object} Context  a line of play, by which it can be found again
 * @property {string} chain
 * @property {string} formation
 * @property {string} rules
 * @property {string[][]} line
 *
 * @typedef {object} Shown  a line that is put on the board
 * @property {Partial<import("./wire.js").Board>} board
 * @property {Standing} start
 * @property {import("./wire.js").Chain} chain
 * @property {import("./wire.js").Floor} floor
 * @property {StepWire[]} steps
 * @property {number} depth  how many of them have been played
 *
 * @typedef {{offers: Offer[], withheld: import("./wire.js").Withheld[]}} Menu  what may be tapped, and what not yet
 *
 * @typedef {object} State
 * @property {boolean} known  the server has told us the board
 * @property {"coach" | "viewer"} role
 * @property {import("./wire.js").Board} board
 * @property {import("./wire.js").Floor} floor
 * @property {import("./wire.js").Choices} choices
 * @property {import("./wire.js").Squad} squad
 * @property {import("./wire.js").Member[]} bench
 * @property {import("./wire.js").Calls} calls
 * @property {number} viewers
 * @property {number} seq  the server's count of changes
 * @property {number} first  index of the first step we hold (viewers joining a long chain hold its end)
 * @property {Standing} start  before the first step we hold
 * @property {StepWire[]} steps  what the server has saved
 * @property {StepWire[]} undone  what redo brings back, the next one last; players' phones may not know the first
 * @property {number} ahead  how many can be redone
 * @property {Pending[]} pending  in the order sent
 * @property {Map<string, Menu>} menus  what may be tapped, by position (see `positionKey`)
 * @property {import("../board/chain.js").Fork[]} forks  where the chain branches
 * @property {import("./wire.js").Chain | null} chain  which chain is played
 * @property {string | null} change  id of the last change, where it is known
 * @property {boolean} arrived  the last change put this chain on the board
 * @property {import("./wire.js").Earlier[]} earlier  chains that gave way to others here, the last first
 * @property {Record<string, import("../pack/offers.js").Licence>} licences  by player of the squad; coaches only
 * @property {string[] | null} installed  kinds of actions taught so far, null: all
 * @property {boolean} [ahead_of_server]  what waits for an answer has been done in it (see overlay.js)
 * @property {boolean} [elsewhere]  another coach has taken the board to another branch than this screen shows
 * @property {"live" | "catching up" | "offline" | "gone"} link
 * @property {string} notice  one sentence to show, "" for none
 * @property {number} notices  counts them, so that the same sentence can be said twice
 */

/** @typedef {ReturnType<typeof hold>} Store */

export { beforeThis, lastChange, newFrom, nextBase, shown, wayOf } from "./overlay.js";

/** Positions whose offers are kept. */
const KEPT = 400;

/** @returns {State} */
export function blank() {
  return /** @type {State} */ (
    /** @type {unknown} */ ({
      known: false, role: "coach", board: null, floor: null, choices: null, squad: {}, bench: [], calls: {},
      viewers: 0, seq: -1, first: 0, start: null, steps: [], undone: [], ahead: 0, pending: [], menus: new Map(),
      forks: [], chain: null, change: null, arrived: false, earlier: [], licences: {}, installed: null,
      link: "catching up", notice: "", notices: 0,
    })
  );
}

/** Two positions with the same key offer the same. @param {Standing} standing */
export function positionKey(standing) {
  const who = Object.entries(standing.at).map(([player, spot]) => `${player}${spot}`);
  const off = standing.off ? `|${Object.values(standing.off).join(";")}` : "";
  return `${who.sort().join()}|${standing.ball}|${standing.cutter ?? ""}|${standing.over ? "over" : ""}${standing.freed ?? ""}${off}`;
}

/**
 * The position after `depth` of these steps.
 * @param {State} state
 * @param {StepWire[]} steps
 * @param {number} depth
 */
export function standingAt(state, steps, depth) {
  return depth > 0 ? steps[depth - 1].after : state.start;
}

/**
 * The state after a message of the server. Returns the same object where nothing changed.
 * @param {State} state
 * @param {Message} message
 * @returns {State}
 */
export function receive(state, message) {
  switch (message.t) {
    case "state": {
      const same = state.known && ["formation", "court", "level", "rules"].every(
        (key) => Reflect.get(state.board, key) === Reflect.get(message.board, key));
      const { role, board, floor, choices, squad, bench = [], calls, viewers, seq, first, start, ahead } = message;
      const { chain = null, change = null, licences = {}, installed = null, arrived = false, earlier = [] } = message;
      const mine = shown(state).steps;
      // On another floor, or at another speed, the same action is another movement.
      const steps = message.steps.map((step, i) => (same ? kept(mine[i + first - state.first], step) : step));
      // Who is not told keeps them only where nothing has changed: they may be those of another line.
      const undone = message.undone ? [...message.undone].reverse() : same && seq === state.seq ? state.undone : [];
      const next = {
        ...state, known: true, role, board, floor, choices, squad, bench, calls, viewers, seq, first, start, ahead, steps,
        chain, change, licences, installed, arrived, earlier, forks: chain && chain.id === state.chain?.id ? state.forks : [],
        undone,
        pending: state.pending.filter((sent) => sent.id !== message.id),
        menus: new Map(), // what a player may do can have changed unseen
      };
      const notice = message.notice ? sayBoard(`notices.${message.notice}`) : "";
      return notice && notice !== state.notice ? noticed(next, notice) : next;
    }
    case "offers":
      return message.seq === state.seq ? withForks(withMenu(state, message), message) : state;
    case "step": {
      const pending = state.pending.filter((sent) => sent.id !== message.id);
      if (message.seq <= state.seq) return { ...state, pending };
      const at = message.depth - 1 - state.first;
      const mine = shown(state).steps;
      // Chosen by somebody else in the middle of a chain, it is played anew where it had been played before.
      const again = pending.length === state.pending.length && at < mine.length - 1;
      const step = again ? message.step : kept(mine[at], kept(wayOf(state)[at], message.step));
      const { steps, undone } = along(state, at, step);
      return { ...state, pending, seq: message.seq, change: message.id, arrived: false, steps, undone, ahead: message.ahead };
    }
    case "back": {
      const pending = state.pending.filter((sent) => sent.id !== message.id);
      if (message.seq <= state.seq) return { ...state, pending };
      const depth = message.depth - state.first;
      const undone = [...state.undone, ...state.steps.slice(depth).reverse()];
      return {
        ...state, pending, seq: message.seq, change: message.id, arrived: false, steps: state.steps.slice(0, depth), undone, ahead: message.ahead,
      };
    }
    case "kept":
      return { ...state, pending: state.pending.filter((sent) => sent.id !== message.id) };
    case "viewers":
      return { ...state, viewers: message.n };
    case "gone":
      return { ...state, link: "gone", notice: message.message, notices: state.notices + 1 };
    default:
      return state;
  }
}

/**
 * The state after something this person did or this device noticed.
 * @param {State} state
 * @param {Partial<Pick<State, "pending" | "link" | "notice" | "viewers" | "elsewhere">>} patch
 * @returns {State}
 */
export function change(state, patch) {
  const { notice, ...rest } = patch;
  const next = { ...state, ...rest };
  return notice === undefined ? next : noticed(next, notice);
}

/** @param {State} state @param {string} notice */
function noticed(state, notice) {
  return { ...state, notice, notices: state.notices + 1 };
}

/**
 * The step we already hold if it is the same one, so that what is playing goes on playing.
 * @param {StepWire | undefined} mine
 * @param {StepWire} theirs
 */
function kept(mine, theirs) {
  if (!mine || mine.a.join() !== theirs.a.join()) return theirs;
  return positionKey(mine.after) === positionKey(theirs.after) ? mine : theirs;
}

/**
 * Whether a message follows on what we know; if not, something was missed and the state must be asked for.
 * @param {State} state
 * @param {Message} message
 */
export function follows(state, message) {
  if (message.t !== "step" && message.t !== "back") return true;
  return state.known && message.seq <= state.seq + 1;
}

/** @param {State} state @param {OffersMessage} message */
function withForks(state, { forks }) {
  return !forks || JSON.stringify(forks) === JSON.stringify(state.forks) ? state : { ...state, forks };
}

/** @param {State} state @param {OffersMessage} message */
function withMenu(state, message) {
  const depth = message.at === undefined ? state.steps.length : message.at - state.first;
  if (depth < 0 || depth > state.steps.length) return state;
  const key = positionKey(standingAt(state, state.steps, depth));
  if (state.menus.has(key)) return state; // the same position offers the same
  const menus = new Map(state.menus);
  if (menus.size >= KEPT) menus.delete(menus.keys().next().value ?? "");
  const offers = message.offers.map((offer) => ({
    ...offer,
    tl: {
      ...offer.tl,
      runs: offer.tl.runs.map((/** @type {any[]} */ [player, start, lasts, index, style]) => [
        player, start, lasts, message.routes[index], style,
      ]),
    },
  }));
  menus.set(key, { offers, withheld: message.withheld });
  return { ...state, menus };
}

/**
 * A holder of the state: the one place it lives.
 * @param {(now: State, before: State) => void} listen  called after every change
 */
export function hold(listen) {
  let now = blank();
  /** @param {State} next */
  const become = (next) => {
    const before = now;
    if (next === before) return;
    now = next;
    listen(now, before);
  };
  return {
    get state() {
      return now;
    },
    /** @param {Message} message */
    receive: (message) => become(receive(now, message)),
    /** @param {Parameters<typeof change>[1]} patch */
    change: (patch) => become(change(now, patch)),
    /**
     * What this device remembers of the board, before the server has said anything.
     * @param {Partial<State>} state @param {Pending[]} pending
     */
    recall: (state, pending) => become({ ...now, ...state, known: true, pending: [...pending, ...now.pending] }),
  };
}
