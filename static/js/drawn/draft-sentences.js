/** A draft in words: each move as a line, who is where, and whether play goes on by rule. Pure. */

import { spotAt } from "./finish.js";
import { isExtra } from "../steps/drawn-text.js";
import { W } from "./words.js";

/**
 * @typedef {import("../words/words.js").Words} Words
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./timing.js").Timed} Timed
 */

/** @param {string} who @param {Words} words */
export function nameOf(who, words) {
  if (who === "ball") return W.ball;
  if (who === "c") return W.c;
  if (who.startsWith("k")) return W.k(who.slice(1));
  return isExtra(who) ? who.toUpperCase() : words.player(Number(who));
}

/** @param {Timed} timed @param {Floor} floor @param {Words} words */
function sentence({ kind, who, to, way }, floor, words) {
  const p = nameOf(who, words);
  const spot = way.length ? spotAt(floor, way[way.length - 1]) : null;
  const there = spot && !isExtra(who) ? words.spot(spot) : "";
  switch (kind) {
    case "none": return W.none;
    case "pass": return W.pass(p, words.player(to));
    case "hand": return W.hand(p, words.player(to));
    case "cut": return isExtra(who) ? W.moved(p, "") : W.cut(p, there);
    case "dribble": return W.dribble(p, there);
    case "screen": return W.screen(p, there);
    default: return W[kind](p);
  }
}

/** @param {Timed[]} moves @param {Floor} floor @param {Words} words @returns {import("./moves-panel.js").DrawnLine[]} */
export const linesOf = (moves, floor, words) => moves.map((timed) => ({
  id: timed.move.id, beat: timed.move.beat, says: sentence(timed, floor, words), time: W.seconds(timed.end - timed.start), start: W.starts(timed.start),
  run: timed.move.does === "run" && !isExtra(timed.who) && timed.kind !== "dribble", bar: timed.kind === "screen",
  paced: !["hand", "gather", "none"].includes(timed.kind),
}));

/** @param {import("./finish.js").Verdict} verdict @param {Words} words */
export function verdictText({ is, off }, words) {
  if (is === "rule") return W.rule;
  if (is === "shot") return W.shotEnd;
  if (is === "lies") return W.lies;
  return is === "off" ? W.off(off.map(words.player)) : is === "post" ? W.post : W.togetherNot;
}

/** @param {string} who @param {Point} place @param {boolean} has @param {Floor} floor @param {Words} words */
export function labelOf(who, place, has, floor, words) {
  const spot = spotAt(floor, place);
  return [nameOf(who, words), spot ? words.at(spot) : "", has ? W.hasBall : ""].filter(Boolean).join(", ");
}
