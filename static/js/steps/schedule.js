/**
 * Laying a chain of steps on one clock. Pure, no DOM.
 *
 * Where steps overlap, a player under way finishes his run before he starts his next one, a step waits until
 * the ball has reached its handler, and a pass until its receiver is within reach of where he catches it.
 */

import { ballAt, lying, presence, where } from "./film.js";
import { route, timeFor } from "./path.js";
import { lay, pickUp } from "./drawn-clock.js";
import { keepToMen } from "./guards.js";
import { isScript } from "./drawn-text.js";
import { strayed } from "./approach.js";
import { ARM, BALL_MOST, HAND, LOOK, MEET_WITHIN, REACH, STRAY } from "./figures.js";

/**
 * @typedef {import("./film.js").Film} Film
 * @typedef {import("./film.js").Toss} Toss
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").StepWire} StepWire
 */

/**
 * An empty film of five players standing.
 * @param {import("../state/wire.js").Standing} start
 * @param {Record<string, Point>} spots
 * @returns {Film}
 */
export function standing({ at, ball, off, lies }, spots) {
  const players = Object.keys(at).map(Number).sort((a, b) => a - b);
  /** @type {Film} */
  const film = {
    players, from: {}, holder: lies ? 0 : ball, shown: {}, men: {}, cues: [], runs: {}, tosses: [], end: 0, ...(lies ? { lies } : {}),
  };
  for (const player of players) {
    film.from[player] = off?.[player] ?? spots[at[player]] ?? [0, 0];
    film.runs[player] = [];
  }
  return film;
}

/**
 * A film in which everybody stands where `places` says, the ball with who has it at time t of another film, or
 * where it lies there.
 * @param {Film} film
 * @param {number} t
 * @param {Record<number, Point>} places
 * @returns {Film}
 */
export function stood(film, t, places) {
  const { players } = film;
  const lies = lying(film, t);
  const holder = lies ? 0 : ballAt(film, t).holder || film.holder;
  /** @type {Film} */
  const still = { players, from: { ...places }, holder, shown: {}, men: {}, cues: [], runs: {}, tosses: [], end: 0, ...(lies ? { lies } : {}) };
  for (const player of players) still.runs[player] = [];
  for (const extra of Object.keys(film.shown)) {
    if (!presence(film, extra, t)) continue;
    Object.assign(still.from, { [extra]: where(film, extra, t) });
    still.runs[extra] = [];
    still.shown[extra] = [[-Infinity, Infinity]];
  }
  return still;
}

/** Whether a step gets everybody back on spots from where they were put. @param {StepWire} step */
export function isRecovery(step) {
  return step.a[0].startsWith("recover:");
}

/**
 * Where everybody was put by hand before he gets back on his spot, as the text of the step has it; whoever was put
 * on it does not run. Null for any other step.
 * @param {StepWire} step @returns {[string, Point][] | null}
 */
function putByHand(step) {
  if (!isRecovery(step)) return null;
  const places = step.a[0].matchAll(/([1-5])=[a-z_]+@(-?\d+),(-?\d+)/g);
  return [...places].map(([, player, x, y]) => [player, [Number(x), Number(y)]]);
}

/**
 * A film with one step more. `gap` is when it begins, in seconds after the previous step's beginning:
 * left out, as soon as the handler is ready; `Infinity`, when all have arrived and stood for `breath` seconds.
 * @param {Film} film
 * @param {StepWire} step
 * @param {number} [gap]
 * @param {number} [breath]
 * @returns {Film}
 */
export function extend(film, step, gap, breath = 0) {
  /** @type {Film} */
  const next = copy(film);
  append(next, step, gap, breath);
  return next;
}

/**
 * @param {Film} film
 * @returns {Film}
 */
function copy(film) {
  const next = {
    ...film, from: { ...film.from }, shown: { ...film.shown }, cues: [...film.cues], runs: { ...film.runs }, tosses: [...film.tosses],
  };
  for (const [who, runs] of Object.entries(film.runs)) next.runs[who] = [...runs];
  return next;
}

/**
 * The film of a whole chain.
 * @param {Film} begin  see `standing`
 * @param {StepWire[]} steps
 * @param {(number | undefined)[]} [gaps]  see `extend`
 * @param {number} [breath]
 * @returns {Film}
 */
export function compose(begin, steps, gaps = [], breath = 0) {
  const film = copy(begin);
  steps.forEach((step, i) => append(film, step, gaps[i], breath));
  return film;
}

/**
 * @param {Film} film  changed in place: only ever one made in this module
 * @param {StepWire} step
 * @param {number | undefined} gap
 * @param {number} breath
 */
function append(film, step, gap, breath) {
  const before = film.cues[film.cues.length - 1];
  const settled = film.end + (before && gap === Infinity ? breath : 0);
  let start = before ? before.ready : 0;
  if (before && gap !== undefined) start = gap === Infinity ? settled : Math.max(before.start, Math.min(before.start + gap, film.end));
  if (isScript(step)) return lay(film, step, settled);
  const put = putByHand(step);
  const stray = put ? STRAY : 0;
  start = Math.max(start, stray ? settled : earliest(film, step, start));
  if (stray) pickUp(film, step.after.ball, start);

  const cue = film.cues.length;
  /** @type {Record<string, [number, number][]>} each player's runs of this step: [planned start, delay] */
  const late = {};
  let end = start + stray + step.tl.end;
  for (const [player, place] of put ?? []) {
    film.runs[player]?.push(strayed(where(film, player, start), place, start + stray, cue));
  }
  for (const [player, t0, lasts, data, style] of [...step.tl.runs].sort((a, b) => a[1] - b[1])) {
    const mine = film.runs[player];
    if (!mine) continue;
    const free = mine.length ? mine[mine.length - 1].t1 : 0;
    const begin = Math.max(start + stray + t0, free);
    const path = route(data);
    const here = where(film, player, begin);
    (late[player] ??= []).push([t0, begin - start - t0]);
    const bend = /** @type {Point} */ (stray ? [0, 0] : [here[0] - path.x[0], here[1] - path.y[0]]);
    mine.push({ t0: begin, t1: begin + lasts, path, style, bend, cue });
    end = Math.max(end, begin + lasts);
  }
  let slip = 0;
  for (const [kind, t0, t1, from, to] of step.tl.ball) {
    const last = film.tosses[film.tosses.length - 1];
    slip = Math.max(slip, lateness(late[from], t0), lateness(late[to], t0));
    let begin = Math.max(start + t0 + slip, last ? last.t1 : 0);
    if (kind === "hand") begin = meeting(film, from, to, begin);
    // Players held up by an earlier run can be further apart than planned; the ball then takes its time.
    const lasts = Math.max(kind === "hand" ? HAND : t1 - t0, apart(film, from, to, begin) / BALL_MOST);
    film.tosses.push({ kind: /** @type {Toss["kind"]} */ (kind), t0: begin, t1: begin + lasts, from, to, cue });
    end = Math.max(end, begin + lasts);
  }
  keepToMen(film, start, cue);
  film.cues.push({ start, ready: Math.min(end, start + stray + step.tl.ready + slip), end });
  film.end = Math.max(film.end, end);
}

/** How far apart two players are. @param {Film} film @param {number} a @param {number} b @param {number} t */
function apart(film, a, b, t) {
  const [x0, y0] = where(film, a, t);
  const [x1, y1] = b ? where(film, b, t) : [0, 0];
  return Math.hypot(x1 - x0, y1 - y0);
}

/**
 * When giver and taker come together: the first time from t on that they are within an arm's length, or
 * the nearest they get.
 * @param {Film} film
 * @param {number} a
 * @param {number} b
 * @param {number} t
 */
function meeting(film, a, b, t) {
  let best = t;
  let least = apart(film, a, b, t);
  for (let look = t; least > ARM && look < t + MEET_WITHIN; look += LOOK) {
    const gap = apart(film, a, b, look);
    if (gap < least) [least, best] = [gap, look];
  }
  return best;
}

/**
 * @param {[number, number][] | undefined} runs
 * @param {number} t
 */
function lateness(runs, t) {
  return (runs ?? []).reduce((most, [t0, delay]) => (t0 <= t ? Math.max(most, delay) : most), 0);
}

/**
 * The earliest a step may start: the ball must have reached its handler, and a receiver who is still on
 * an earlier run must be within reach of its end when the pass is thrown, and a screener done with his.
 * @param {Film} film
 * @param {StepWire} step
 * @param {number} start
 */
function earliest(film, step, start) {
  for (const [player, t0, , , style] of step.tl.runs) {
    const mine = film.runs[player] ?? [];
    // A screen must be set before it is used, so nobody goes before the screener can.
    if (style === "screen" && mine.length) start = Math.max(start, mine[mine.length - 1].t1 - t0);
  }
  const last = film.tosses[film.tosses.length - 1];
  if (last) {
    const holder = last.to;
    const uses = [...step.tl.ball.map(([, t0]) => t0), ...step.tl.runs.filter(([p]) => p === holder).map(([, t0]) => t0)];
    if (uses.length) start = Math.max(start, (last.kind === "hand" ? last.t0 : last.t1) - Math.min(...uses));
  }
  for (const [kind, t0, , , to] of step.tl.ball) {
    const runs = film.runs[to];
    if (kind !== "pass" || !runs || !runs.length) continue;
    const run = runs[runs.length - 1];
    const near = run.t0 + (run.t1 - run.t0) * timeFor(1 - REACH / Math.max(run.path.length, REACH));
    start = Math.max(start, near - t0);
  }
  return start;
}
