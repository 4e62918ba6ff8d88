/**
 * A film: a chain of steps laid on one clock, and where everybody is at any time of it. Pure, no DOM.
 *
 * Times are seconds from the film's beginning, places centimetres on the floor. Positions are continuous
 * however steps overlap: a player under way finishes his run before he starts his next one, the ball goes
 * from hand to hand, and a path that begins elsewhere than its runner stands is bent to begin where he does.
 */

import { pointAt, progress, route, timeFor } from "./path.js";

/**
 * @typedef {import("./wire.js").Point} Point
 * @typedef {import("./wire.js").StepWire} StepWire
 * @typedef {import("./path.js").Route} Route
 *
 * @typedef {object} Run  one player along one path
 * @property {number} t0
 * @property {number} t1
 * @property {Route} path
 * @property {string} style  cut | dribble | screen | hand | carry
 * @property {Point} bend  from the path's first point to where the runner really starts
 * @property {number} cue  index of the step it belongs to
 *
 * @typedef {object} Toss  the ball changes hands (or leaves them)
 * @property {"pass" | "hand" | "shot"} kind
 * @property {number} t0
 * @property {number} t1
 * @property {number} from
 * @property {number} to  player, 0 for the basket
 * @property {number} cue
 *
 * @typedef {object} Cue  one step on the clock
 * @property {number} start
 * @property {number} ready  the handler can begin the next action
 * @property {number} end  everybody of this step has arrived
 *
 * @typedef {object} Film
 * @property {number[]} players
 * @property {Record<number, Point>} from  where each player stands at the beginning
 * @property {number} holder  who has the ball at the beginning
 * @property {Cue[]} cues
 * @property {Record<number, Run[]>} runs  by player, in order
 * @property {Toss[]} tosses  in order
 * @property {number} end
 *
 * @typedef {object} BallPose
 * @property {number} x
 * @property {number} y
 * @property {number} holder  player, 0 while it flies
 * @property {number} open  1 around its holder, 0 in free flight
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
/** How long the ball takes to leave the shape it has around a holder, seconds. */
const SHED = 0.12;

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
    slip = Math.max(slip, lateness(late[from], t0), kind === "hand" ? lateness(late[to], t0) : 0);
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
    if (uses.length) start = Math.max(start, last.t1 - Math.min(...uses));
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

/**
 * Index of the last item that has begun at time t, -1 if none has.
 * @param {{t0: number}[]} items  in order of t0
 * @param {number} t
 */
function begun(items, t) {
  let low = -1;
  let high = items.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (items[middle].t0 <= t) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * Where a player is.
 * @param {Film} film
 * @param {number} player
 * @param {number} t
 * @returns {Point}
 */
export function where(film, player, t) {
  const runs = film.runs[player];
  if (!runs) return [0, 0];
  const run = runs[begun(runs, t)];
  if (!run) return film.from[player];
  const way = run.t1 > run.t0 ? progress((t - run.t0) / (run.t1 - run.t0)) : 1;
  const [x, y] = pointAt(run.path, way * run.path.length);
  return [x + run.bend[0] * (1 - way), y + run.bend[1] * (1 - way)];
}

/**
 * Where the ball is and who has it.
 * @param {Film} film
 * @param {number} t
 * @returns {BallPose}
 */
export function ballAt(film, t) {
  const toss = film.tosses[begun(film.tosses, t)];
  if (!toss) return held(film, film.holder, t);
  if (t >= toss.t1) return toss.to ? held(film, toss.to, t) : { x: 0, y: 0, holder: 0, open: 0 };
  const u = (t - toss.t0) / (toss.t1 - toss.t0);
  const hand = toss.kind === "hand";
  const a = where(film, toss.from, hand ? t : toss.t0);
  const b = toss.to ? where(film, toss.to, hand ? t : toss.t1) : [0, 0];
  const shed = Math.min(SHED, (toss.t1 - toss.t0) / 2);
  const leaving = 1 - Math.min(1, (t - toss.t0) / shed);
  const arriving = toss.to ? 1 - Math.min(1, (toss.t1 - t) / shed) : 0;
  return { x: a[0] + (b[0] - a[0]) * u, y: a[1] + (b[1] - a[1]) * u, holder: 0, open: Math.max(leaving, arriving) };
}

/**
 * @param {Film} film
 * @param {number} player
 * @param {number} t
 * @returns {BallPose}
 */
function held(film, player, t) {
  const [x, y] = where(film, player, t);
  return { x, y, holder: player, open: 1 };
}

/**
 * How many steps have begun before time t: one that begins at t has not.
 * @param {Film} film
 * @param {number} t
 */
export function depthAt(film, t) {
  let depth = 0;
  while (depth < film.cues.length && film.cues[depth].start < t - 1e-6) depth++;
  return depth;
}

/**
 * Where everybody comes to rest after the first `depth` steps.
 * @param {Film} film
 * @param {number} depth
 * @returns {Record<number, Point>}
 */
export function resting(film, depth) {
  /** @type {Record<number, Point>} */
  const places = {};
  for (const player of film.players) {
    const runs = film.runs[player].filter((run) => run.cue < depth);
    places[player] = runs.length ? where({ ...film, runs: { [player]: runs } }, player, Infinity) : film.from[player];
  }
  return places;
}
