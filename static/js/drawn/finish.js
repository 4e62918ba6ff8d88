/** What a draft comes to: its text form, whether play goes on by rule from where it ends, and what is off if not. Pure. */

import { at } from "../pack/columns.js";
import { THERE } from "../steps/figures.js";
import { apart } from "./simplify.js";
import { isSound, MOST, PLAYERS, WHO, writeScript } from "../steps/drawn-text.js";

/**
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./drawing.js").Draft} Draft
 * @typedef {import("../steps/drawn-text.js").Script} Script
 * @typedef {import("./timing.js").Plan} Plan
 * @typedef {import("../pack/pack.js").Pack} Pack
 *
 * @typedef {object} Verdict
 * @property {"rule" | "shot" | "lies" | "off" | "together" | "post"} is  rule: play goes on by rule; together: these
 *   spots cannot be taken together; post: whether they can is not known here
 * @property {number[]} off  who ends off his spot
 * @property {Record<string, string>} on  who ends on which spot, as the text has it
 */

/** Where everybody may end. @param {Floor} floor @returns {[string, Point][]} */
export const spotsOf = ({ spots, lane = [] }) => Object.entries(spots).filter(([name]) => !lane.includes(name));

/** The spot a place is on. @param {Floor} floor @param {Point} place @returns {string | null} */
export const spotAt = (floor, place) => spotsOf(floor).find(([, spot]) => apart(spot, place) <= THERE)?.[0] ?? null;

/**
 * @param {Plan} plan @param {Floor} floor
 * @param {Pack | null} pack  of what the board plays, null if this device has none
 * @returns {Verdict}
 */
export function verdictOf({ moves, ends, holder, lies, over }, floor, pack) {
  const came = (/** @type {string} */ n) => Math.max(-1, ...moves.filter(({ move, who }) => move.does === "run" && who === n).map(({ end }) => end));
  /** @type {Record<string, string>} */
  const on = {};
  // Of two on one spot it is his who was there first.
  for (const n of [...PLAYERS].sort((a, b) => came(a) - came(b))) {
    const spot = spotAt(floor, ends[n]);
    if (spot && !Object.values(on).includes(spot)) on[n] = spot;
  }
  const off = PLAYERS.filter((n) => !on[n]).map(Number);
  const ring = Object.fromEntries(Object.entries(on).filter(([, spot]) => floor.ring.includes(spot)));
  // All five stand in the text only where they are known to be able to go on from there.
  const may = off.length > 0 || (pack ? together(pack, Object.values(on)) : Object.keys(ring).length === PLAYERS.length);
  const is = over ? "shot" : lies ? "lies" : off.length || !holder ? "off" : may ? "rule" : pack ? "together" : "post";
  return { is, off, on: may ? on : leave(on, ring) };
}

/** Without those on posts, or where nobody is on one, without the last. @param {Record<string, string>} on @param {Record<string, string>} ring */
function leave(on, ring) {
  if (Object.keys(ring).length < PLAYERS.length) return ring;
  const { 5: _last, ...rest } = on;
  return rest;
}

/** Whether everybody may be on these spots at once. @param {Pack} pack @param {string[]} spots */
function together({ spots: all, recover }, spots) {
  const wanted = spots.reduce((mask, spot) => mask | (1 << all.indexOf(spot)), 0);
  if (spots.some((spot) => !all.includes(spot))) return false;
  for (let i = 0; i < recover.low.length; i++) {
    if ((at(recover.low, i) | (at(recover.high, i) << 7)) === wanted) return true;
  }
  return false;
}

/** @param {Draft} draft @param {Plan} plan @param {Record<string, string>} on @returns {Script} */
export function scriptOf({ kind, places, ball }, { moves }, on) {
  const runs = moves.filter(({ move, kind: what }) => move.does === "run" && what !== "none").map(({ kind: style, who, start, end, way }) => ({
    who, style: /** @type {"cut" | "dribble" | "screen"} */ (style), start, lasts: end - start, points: way.slice(1),
  }));
  runs.sort((a, b) => a.start - b.start || WHO.indexOf(a.who) - WHO.indexOf(b.who));
  const events = moves.filter(({ move, kind: what }) => move.does !== "run" && what !== "none").map(({ kind: what, who, to, start, end, way }) => ({
    kind: /** @type {import("../steps/drawn-text.js").ScriptEvent["kind"]} */ (what), start, end,
    giver: what === "gather" ? 0 : Number(who), taker: to, ...(what === "loose" ? { place: way[1] } : {}),
  }));
  return { kind, places, ball, runs, events, on };
}

/** Why a script cannot be played, null if it can. @param {Script} script @returns {"long" | "much" | null} */
export function tooMuch(script) {
  const { runs, events } = script;
  if (Math.max(0, ...runs.map(({ start, lasts }) => start + lasts), ...events.map(({ end }) => end)) > MOST.time) return "long";
  return runs.length > MOST.runs || events.length > MOST.events || writeScript(script).length > MOST.text || !isSound(script) ? "much" : null;
}
