/**
 * Laying a chain of steps on one clock. Pure, no DOM.
 *
 * Where steps overlap, a player under way finishes his run before he starts his next one, a step waits until
 * the ball has reached its handler, and a pass until its receiver is within reach of where he catches it.
 */

import { where } from "./film.js";
import { route, timeFor } from "./path.js";

/**
 * @typedef {import("./film.js").Film} Film
 * @typedef {import("./film.js").Toss} Toss
 * @typedef {import("./wire.js").Point} Point
 * @typedef {import("./wire.js").StepWire} StepWire
 */

/** A receiver is within catching reach this close to the end of his run, centimetres. */
const REACH = 100;
/** A ball changes hands over this long, seconds. */
const HAND = 0.18;
/** Giver and taker of a hand-off are this close, centimetres, and are waited for so long, seconds. */
const ARM = 90;
const MEET_WITHIN = 3;
/** Fastest the ball flies between players who were held up, centimetres a second. */
const BALL_MOST = 1500;
/**
 * An empty film of five players standing.
 * @param {Record<string, string>} at  player to spot
 * @param {number} holder
 * @param {Record<string, Point>} spots
 * @returns {Film}
 */
export function standing(at, holder, spots) {
  const players = Object.keys(at).map(Number).sort((a, b) => a - b);
  /** @type {Film} */
  const film = { players, from: {}, holder, cues: [], runs: {}, tosses: [], end: 0 };
  for (const player of players) {
    film.from[player] = spots[at[player]] ?? [0, 0];
    film.runs[player] = [];
  }
  return film;
}

/**
 * A film with one step more. `gap` is when it begins, in seconds after the previous step's beginning:
 * left out, as soon as the handler is ready; `Infinity`, when all have arrived.
 * @param {Film} film
 * @param {StepWire} step
 * @param {number} [gap]
 * @returns {Film}
 */
export function extend(film, step, gap) {
  /** @type {Film} */
  const next = copy(film);
  append(next, step, gap);
  return next;
}

/**
 * @param {Film} film
 * @returns {Film}
 */
function copy(film) {
  const next = { ...film, cues: [...film.cues], runs: { ...film.runs }, tosses: [...film.tosses] };
  for (const player of film.players) next.runs[player] = [...film.runs[player]];
  return next;
}

/**
 * The film of a whole chain.
 * @param {Film} begin  see `standing`
 * @param {StepWire[]} steps
 * @param {(number | undefined)[]} [gaps]
 * @returns {Film}
 */
export function compose(begin, steps, gaps = []) {
  const film = copy(begin);
  steps.forEach((step, i) => append(film, step, gaps[i]));
  return film;
}

/**
 * @param {Film} film  changed in place: only ever one made in this module
 * @param {StepWire} step
 * @param {number | undefined} gap
 */
function append(film, step, gap) {
  const before = film.cues[film.cues.length - 1];
  let start = before ? before.ready : 0;
  if (before && gap !== undefined) start = Math.max(before.start, Math.min(before.start + gap, film.end));
  start = Math.max(start, earliest(film, step, start));

  const cue = film.cues.length;
  /** @type {Record<number, [number, number][]>} each player's runs of this step: [planned start, delay] */
  const late = {};
  let end = start + step.tl.end;
  for (const [player, t0, lasts, data, style] of [...step.tl.runs].sort((a, b) => a[1] - b[1])) {
    const mine = film.runs[player];
    if (!mine) continue;
    const free = mine.length ? mine[mine.length - 1].t1 : 0;
    const begin = Math.max(start + t0, free);
    const path = route(data);
    const here = where(film, player, begin);
    (late[player] ??= []).push([t0, begin - start - t0]);
    mine.push({ t0: begin, t1: begin + lasts, path, style, bend: [here[0] - path.x[0], here[1] - path.y[0]], cue });
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
  film.cues.push({ start, ready: Math.min(end, start + step.tl.ready + slip), end });
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
  for (let later = t; least > ARM && later < t + MEET_WITHIN; later += 0.04) {
    const gap = apart(film, a, b, later);
    if (gap < least) [least, best] = [gap, later];
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
 * an earlier run must be within reach of its end when the pass is thrown.
 * @param {Film} film
 * @param {StepWire} step
 * @param {number} start
 */
function earliest(film, step, start) {
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
