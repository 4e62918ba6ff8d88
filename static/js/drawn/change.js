/** A step that was drawn as a draft again, at the times it had. Pure. */

import { readScript } from "../steps/drawn-text.js";
import { plan } from "./timing.js";

/**
 * @typedef {import("./drawing.js").Draft} Draft
 * @typedef {import("./drawing.js").Move} Move
 * @typedef {import("../steps/drawn-text.js").Script} Script
 * @typedef {{what: Omit<import("./drawing.js").RunMove, keyof import("./drawing.js").Timing> | Omit<import("./drawing.js").GiveMove, keyof import("./drawing.js").Timing>
 *   | Omit<import("./drawing.js").GatherMove, keyof import("./drawing.js").Timing>, start: number, end: number}} Piece
 */

/** What one tap on faster does, see pace.js. */
const STEP = 1.2;
const ROUNDS = 4;

/** @param {string} text @param {number} level  the board's @returns {Draft | null} */
export function draftOf(text, level) {
  const script = readScript(text);
  if (!script) return null;
  const { kind, places, ball } = script;
  /** @type {Draft} */
  let draft = { kind, places, ball, moves: [], beat: 0 };
  let over = 0;
  for (const { what, start, end } of pieces(script)) {
    const { moves } = draft;
    if (moves.length && start >= over) draft = { ...draft, beat: draft.beat + 1 };
    over = Math.max(over, end);
    let move = /** @type {Move} */ ({ ...what, id: moves.length + 1, beat: draft.beat, shift: 0, pace: 0 });
    // How far a pass to a runner flies depends on when it is thrown, and that on where he is then.
    for (let i = 0; i < ROUNDS; i++) {
      const now = lastOf({ ...draft, moves: [...moves, move] }, level);
      const faster = end > start && now.end > now.start ? Math.log((now.end - now.start) / (end - start)) / Math.log(STEP) : 0;
      // Where it waits for something else, only a shift beyond that puts it off.
      const shift = now.start === start ? move.shift : start - now.from;
      move = { ...move, shift, pace: move.pace + faster };
    }
    draft = { ...draft, moves: [...moves, move] };
  }
  return draft;
}

/** @param {Draft} draft @param {number} level */
const lastOf = (draft, level) => plan(draft, level).moves.slice(-1)[0];

/** In the order they would be drawn in: a way before a pass to its end, but a passer's own after it. @param {Script} script @returns {Piece[]} */
function pieces({ runs, events }) {
  const gives = (/** @type {Script["runs"][0]} */ { who, start, style }) =>
    style !== "dribble" && events.some((event) => event.giver === Number(who) && event.start === start);
  const all = [
    ...runs.map((run) => ({
      rank: gives(run) ? 2 : 0, start: run.start, end: run.start + run.lasts,
      what: { does: /** @type {const} */ ("run"), who: run.who, points: run.points, bar: run.style === "screen" },
    })),
    ...events.map(({ kind, start, end, taker, place }) => ({
      rank: 1, start, end,
      what: kind === "gather" ? { does: /** @type {const} */ ("gather"), who: taker }
        : { does: /** @type {const} */ ("give"), to: kind === "shot" ? /** @type {const} */ ("ring") : (place ?? taker) },
    })),
  ];
  return all.sort((a, b) => a.start - b.start || a.rank - b.rank);
}
