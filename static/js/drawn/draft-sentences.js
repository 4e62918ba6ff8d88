/** A draft in words: each move as a line, who is where, and whether play goes on by rule. Pure. */

import { spotAt } from "./finish.js";
import { isExtra } from "../steps/drawn-text.js";
import { sayDrawn, sayCut, sayDribble, sayLasts, sayMoved, sayOff, sayScreen } from "../words/drawn-words.js";
import { listed, fill } from "../words/sayer.js";

/**
 * @typedef {import("../words/speaker.js").Words} Words
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./timing.js").Timed} Timed
 */

/** @param {string} who @param {Words} words */
export function nameOf(who, words) {
  if (who === "ball") return sayDrawn("ball");
  if (who === "c") return sayDrawn("c");
  if (who.startsWith("k")) return sayDrawn("k", { n: who.slice(1) });
  return isExtra(who) ? who.toUpperCase() : words.player(Number(who));
}

/** @param {Timed} timed @param {Floor} floor @param {Words} words */
function sentence({ kind, who, to, way }, floor, words) {
  const p = nameOf(who, words);
  const spot = way.length ? spotAt(floor, way[way.length - 1]) : null;
  const there = spot ? words.forms(spot) : null;
  // What is drawn is said as what is played by rule.
  const chain = (/** @type {string} */ key, /** @type {Record<string, string>} */ given) => fill(words.table.chain[key], given);
  switch (kind) {
    case "none": return sayDrawn("none");
    case "pass": return chain("pass", { p, m: words.player(to) });
    case "hand": return chain("hand_off", { p, m: words.player(to) });
    case "cut": return isExtra(who) ? sayMoved(p, there) : sayCut(p, there);
    case "dribble": return sayDribble(p, there);
    case "screen": return sayScreen(p, there);
    case "shot": return chain("shot", { p });
    case "loose": return sayDrawn("loose", { p });
    default: return sayDrawn("gather", { p });
  }
}

/** @param {Timed[]} moves @param {Floor} floor @param {Words} words @returns {import("./moves-panel.js").DrawnLine[]} */
export const linesOf = (moves, floor, words) => moves.map((timed) => ({
  id: timed.move.id, beat: timed.move.beat, says: sentence(timed, floor, words), time: sayLasts(timed.end - timed.start), start: sayLasts(timed.end - timed.start, timed.start),
  run: timed.move.does === "run" && !isExtra(timed.who) && timed.kind !== "dribble", bar: timed.kind === "screen",
  paced: !["hand", "gather", "none"].includes(timed.kind),
}));

/** @param {import("./finish.js").Verdict} verdict @param {Words} words */
export function verdictText({ is, off }, words) {
  if (is === "rule") return sayDrawn("rule");
  if (is === "shot") return sayDrawn("shot_end");
  if (is === "lies") return sayDrawn("lies");
  return is === "off" ? sayOff(off.map(words.player)) : is === "post" ? sayDrawn("post") : sayDrawn("together_not");
}

/** @param {string} who @param {Point} place @param {boolean} has @param {Floor} floor @param {Words} words */
export function labelOf(who, place, has, floor, words) {
  const spot = spotAt(floor, place);
  return listed([nameOf(who, words), spot ? words.at(spot) : "", has ? sayDrawn("has_ball") : ""].filter(Boolean), "comma");
}
