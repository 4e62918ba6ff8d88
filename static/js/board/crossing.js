/**
 * From one branch or chain to another: where undo and redo lead, where that is no step. What is done is undone in its
 * order: a way back comes up once the steps played since have been taken back, and a way on ends with whatever else is done.
 */

import { wayOf } from "../state/state.js";

/**
 * @typedef {import("./desk.js").Opened} Opened
 * @typedef {{undo: Opened | null, redo: Opened | null}} Ways
 * @typedef {{at: string, to: Opened} | null} Way  `at`: the board it leads from; null: a step
 * @typedef {Way[]} Stack  the last one counts
 *
 * @typedef {object} Crossing
 * @property {Ways} ways
 * @property {() => Left} leave  what is on the board now, before another one comes
 * @property {(left: Left, to: Opened) => void} went  to another branch, and nothing to redo any more
 * @property {(left: Left, to: Opened) => void} undone  an undo has left this for that, which may still be on its way
 * @property {(left: Left, to: Opened) => void} redone  a redo has
 * @property {(what: "step" | "undo" | "redo" | "other") => void} acted  something has been done that is no crossing; other: what
 *   leaves the chain as it is
 * @property {() => void} forget  another chain has come, or another coach was elsewhere meanwhile
 *
 * @typedef {{board: Opened, back: Stack, on: Stack}} Left
 */

/** Enough for a time-out, and no more to remember. */
const MOST = 200;

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
  /** @param {Stack} ways @param {Way} way */
  const more = (ways, way) => [...ways, way].slice(-MOST);
  /** @param {Left} left @param {Opened} now  the way back, if it leads to another branch of the chain that has come */
  const branched = ({ board, back: before }, now) => {
    const other = board.id !== "" && board.id === now.id && JSON.stringify(now.line) !== JSON.stringify(board.line);
    back = other ? more(before, { at: played(now), to: board }) : before;
  };
  const last = (/** @type {Stack} */ ways, /** @type {string} */ at) => {
    const way = ways[ways.length - 1];
    return way?.at === at ? way.to : null;
  };

  return {
    get ways() {
      if (!now().chain || (!back.length && !on.length)) return { undo: null, redo: null };
      return { undo: last(back, played(here())), redo: last(on, whole(here())) };
    },
    leave: () => ({ board: here(), back, on }),
    went: branched,
    undone(left, to) {
      back = left.board.id === to.id ? left.back.slice(0, -1) : left.back;
      on = more(left.on, { at: whole(to), to: left.board });
    },
    redone(left, to) {
      branched(left, to);
      on = left.on.slice(0, -1);
    },
    acted(what) {
      if (what === "undo") back = back[back.length - 1] === null ? back.slice(0, -1) : back;
      else if (what === "redo") back = more(back, null);
      else on = [];
      if (what === "step") back = more(back, null);
    },
    forget() {
      back = on = [];
    },
  };
}
