/** Laying a scripted step on a film's clock: everything happens when the drawing says. Pure, no DOM. */

import { where } from "./film.js";
import { route } from "./path.js";
import { strayed } from "./approach.js";
import { keepToMen } from "./guards.js";
import { GLANCE, PLACED, SEEN, STRAY } from "./figures.js";
import { isExtra, WHO } from "./drawn-text.js";

/**
 * @typedef {import("./film.js").Film} Film
 * @typedef {import("./film.js").Toss} Toss
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").StepWire} StepWire
 */

/**
 * Add a scripted step. The film's first step finds everybody where it begins; to a later one they go first, and
 * whoever is not in it leaves.
 * @param {Film} film  changed in place
 * @param {StepWire} step
 * @param {number} start  film seconds, when everybody has arrived
 */
export function lay(film, step, start) {
  const cue = film.cues.length;
  const began = cue ? start + STRAY : start;
  setUp(film, step, start);
  for (const [who, t0, lasts, data, style] of step.tl.runs) {
    film.runs[who]?.push({ t0: began + t0, t1: began + t0 + lasts, path: route(data), style, bend: [0, 0], cue });
  }
  // A drawing says itself where defenders go; whoever it says nothing of goes with his man.
  film.men = {};
  keepToMen(film, began, cue, new Set(step.tl.runs.map(([who]) => String(who))));
  film.men = {};
  let end = Math.max(began + step.tl.end, start + GLANCE);
  step.tl.ball.forEach(([kind, t0, t1, from, to, at], i) => {
    const { lies: out } = ballAfter(film);
    // At least as long as can be seen, if the next leaves room for it.
    const until = Math.max(t1, Math.min(t0 + SEEN, step.tl.ball[i + 1]?.[1] ?? Infinity));
    film.tosses.push({ kind: /** @type {Toss["kind"]} */ (kind), t0: began + t0, t1: began + until, from, to, cue, ...(out ? { out } : {}), ...(at ? { at } : {}) });
    end = Math.max(end, began + until);
  });
  film.cues.push({ start, ready: end, end, set: Math.max(began, start + GLANCE) });
  film.end = Math.max(film.end, end);
}

/** @param {Film} film @param {StepWire} step @param {number} start */
function setUp(film, step, start) {
  const cue = film.cues.length;
  const places = step.from ?? {};
  if (cue) bring(film, step, start);
  else [film.holder, film.lies] = [step.has ?? 0, step.lies];
  leave(film, start, places);
  for (const who of WHO) {
    const place = places[who];
    if (!place) continue;
    if (isExtra(who)) enter(film, who, place, start);
    else if (!cue) film.from[who] = place;
    else go(film, who, place, start);
  }
}

/** To his place, if he is not there. @param {Film} film @param {string} who @param {Point} place @param {number} start */
function go(film, who, place, start) {
  const here = where(film, who, start);
  if (apart(here, place) > PLACED) film.runs[who]?.push(strayed(here, place, start + STRAY, film.cues.length));
}

/**
 * An extra comes in, or goes on from where he is.
 * @param {Film} film @param {string} who @param {Point} place @param {number} start
 */
function enter(film, who, place, start) {
  const cue = film.cues.length;
  const shown = film.shown[who] ?? [];
  film.runs[who] ??= [];
  if (shown.some(([, until]) => until === Infinity)) return go(film, who, place, start);
  // Nobody sees him change places.
  if (shown.length) film.runs[who].push({ t0: start, t1: start, path: route(`M${place[0]} ${place[1]}`), style: "stray", bend: [0, 0], cue });
  else film.from[who] = place;
  film.shown[who] = [...shown, [cue ? start : -Infinity, Infinity]];
}

/**
 * Extras who are not in what begins now leave.
 * @param {Film} film  changed in place
 * @param {number} start  film seconds
 * @param {Record<string, Point>} [staying]
 */
function leave(film, start, staying = {}) {
  for (const [who, shown] of Object.entries(film.shown)) {
    const last = shown[shown.length - 1];
    if (last[1] === Infinity && !staying[who]) film.shown[who] = [...shown.slice(0, -1), [last[0], start]];
  }
}

/** The ball comes to who is to have it, or to where it is to lie. @param {Film} film @param {StepWire} step @param {number} start */
function bring(film, step, start) {
  const { holder, lies } = ballAfter(film);
  const to = step.has ?? 0;
  const same = to ? to === holder : Boolean(lies && step.lies && apart(lies, step.lies) <= PLACED);
  if (same) return;
  film.tosses.push({ kind: "stray", t0: start, t1: start + STRAY, from: holder, to, cue: film.cues.length, out: lies, at: step.lies });
}

/**
 * Whoever gets the ball in a step back on spots picks it up first, if it lies.
 * @param {Film} film  changed in place
 * @param {number} taker
 * @param {number} start  film seconds
 */
export function pickUp(film, taker, start) {
  const { holder, lies } = ballAfter(film);
  if (holder || !lies) return;
  film.tosses.push({ kind: "gather", t0: start, t1: start + STRAY, from: 0, to: taker, cue: film.cues.length, out: lies });
}

/** Who has the ball once all is done, or else where it lies. @param {Film} film @returns {{holder: number, lies?: Point}} */
export function ballAfter({ tosses, holder, lies }) {
  const last = tosses[tosses.length - 1];
  return last ? { holder: last.to, lies: last.at } : { holder, lies };
}

/** @param {Point} a @param {Point} b */
function apart([x0, y0], [x1, y1]) {
  return Math.hypot(x1 - x0, y1 - y0);
}
