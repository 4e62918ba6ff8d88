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
 * @property {(left: Left, to: Opened) => void} went  to another branch, and nothing to redo any more
 * @property {(left: Left, to: Opened) => void} undone  an undo has left this for that, which may still be on its way
 * @property {(left: Left, to: Opened) => void} redone  a redo has
 * @property {() => void} acted  something else has been done
 * @property {() => void} forget  another coach was elsewhere meanwhile
 *
 * @typedef {{board: Opened, back: Stack, on: Stack}} Left
 */

/** As many as there are earlier chains. */
const MOST = 20;

/** A board as it is found again: by what has been played, or by what comes after that too. @param {Opened} board */
const played = ({ id, line, depth }) => JSON.stringify([id, line.slice(0, depth)]);
/** @param {Opened} board */
const whole = ({ id, line, depth }) => JSON.stringify([id, line, depth]);

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
  /** @param {Stack} ways @param {string} at @param {Opened} to */
  const more = (ways, at, to) => [...ways, { at, to }].slice(-MOST);
  /** @param {Left} left @param {Opened} now  the way back, if it leads to another branch of the chain that has come */
  const branched = ({ board, back: before }, now) => {
    const other = board.id !== "" && board.id === now.id && JSON.stringify(now.line) !== JSON.stringify(board.line);
    back = other ? more(before, played(now), board) : before;
  };
  const last = (/** @type {Stack} */ ways, /** @type {string} */ at) => (ways.length && ways[ways.length - 1].at === at ? ways[ways.length - 1].to : null);

  return {
    get ways() {
      if (!now().chain || (!back.length && !on.length)) return { undo: null, redo: null };
      return { undo: last(back, played(here())), redo: last(on, whole(here())) };
    },
    leave: () => ({ board: here(), back, on }),
    went: branched,
    undone(left, to) {
      back = left.board.id === to.id ? left.back.slice(0, -1) : left.back;
      on = more(left.on, whole(to), left.board);
    },
    redone(left, to) {
      branched(left, to);
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
