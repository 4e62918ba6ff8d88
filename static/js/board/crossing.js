/**
 * From one branch or chain to another: where undo and redo lead, where that is no step. A way back holds where one
 * stands as one stood when it was made; a way on ends with whatever else is done.
 */

import { wayOf } from "../state/state.js";

/**
 * @typedef {import("./desk.js").Opened} Opened
 * @typedef {{undo: Opened | null, redo: Opened | null}} Ways
 * @typedef {{at: string, to: Opened}[]} Stack  `at`: the board it leads from; the last one counts
 *
 * @typedef {object} Crossing
 * @property {Ways} ways
 * @property {() => Left} leave  what is on the board now, before another one comes
 * @property {(left: Left) => void} went  to another branch, and nothing to redo any more
 * @property {(left: Left) => void} undone  an undo has left this
 * @property {(left: Left) => void} redone  a redo has left this
 * @property {() => void} acted  something else has been done
 * @property {() => void} forget  another coach was elsewhere meanwhile
 *
 * @typedef {{board: Opened, back: Stack, on: Stack}} Left
 */

/** As many as there are earlier chains. */
const MOST = 20;

/** @param {() => import("../state/state.js").State} now  what is shown @returns {Crossing} */
export function openCrossing(now) {
  /** @type {Stack} */
  let back = [];
  /** @type {Stack} */
  let on = [];

  /** @returns {Opened} */
  const here = () => {
    const { chain, board: { formation, rules }, steps, undone } = now();
    return { id: chain?.id ?? "", formation, rules, line: wayOf({ steps, undone }).map(({ a }) => a), depth: steps.length };
  };
  const played = () => {
    const { id, line, depth } = here();
    return JSON.stringify([id, line.slice(0, depth)]);
  };
  const whole = () => JSON.stringify(here());
  /** @param {Stack} ways @param {string} at @param {Opened} to */
  const more = (ways, at, to) => [...ways, { at, to }].slice(-MOST);
  /** @param {Left} left  the way back, if it leads to another branch of this chain */
  const branched = ({ board, back: before }) => {
    const { id, line } = here();
    const other = board.id !== "" && board.id === id && JSON.stringify(line) !== JSON.stringify(board.line);
    back = other ? more(before, played(), board) : before;
  };
  const last = (/** @type {Stack} */ ways, /** @type {string} */ at) => (ways.length && ways[ways.length - 1].at === at ? ways[ways.length - 1].to : null);

  return {
    get ways() {
      if (!now().chain || (!back.length && !on.length)) return { undo: null, redo: null };
      return { undo: last(back, played()), redo: last(on, whole()) };
    },
    leave: () => ({ board: here(), back, on }),
    went: branched,
    undone(left) {
      back = left.board.id === here().id ? left.back.slice(0, -1) : left.back;
      on = more(left.on, whole(), left.board);
    },
    redone(left) {
      branched(left);
      on = left.on.slice(0, -1);
    },
    acted() {
      on = [];
    },
    forget() {
      back = on = [];
    },
  };
}
