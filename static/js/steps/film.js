/**
 * A film: a chain of steps laid on one clock (see schedule.js), and where everybody is at any time of it.
 * Pure, no DOM.
 *
 * Times are seconds from the film's beginning, places centimetres on the floor. Positions are continuous
 * however steps overlap: a player under way finishes his run before he starts his next one, the ball goes
 * from hand to hand, and a path that begins elsewhere than its runner stands is bent to begin where he does.
 */

import { pointAt, progress } from "./path.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./path.js").Route} Route
 *
 * @typedef {object} Run  one player along one path
 * @property {number} t0
 * @property {number} t1
 * @property {Route} path
 * @property {string} style  cut | dribble | screen | hand | carry | stray | guard
 * @property {Point} bend  from the path's first point to where the runner really starts
 * @property {number} cue  index of the step it belongs to
 * @property {Point} [aside]  from the path's last point to where he ends: of a defender who goes along with his man
 *
 * @typedef {object} Toss  the ball changes hands (or leaves them, or lies and is picked up)
 * @property {"pass" | "hand" | "shot" | "loose" | "gather" | "stray"} kind  stray: brought to where a step begins
 * @property {number} t0
 * @property {number} t1
 * @property {number} from  player, 0 for the floor
 * @property {number} to  player, 0 for the floor or the basket
 * @property {number} cue
 * @property {Point} [out]  where it lay on the floor
 * @property {Point} [at]  where it comes to lie on the floor
 *
 * @typedef {object} Cue  one step on the clock
 * @property {number} start
 * @property {number} ready  the handler can begin the next action
 * @property {number} end  everybody of this step has arrived
 * @property {number} [set]  scripted: everybody stands where it begins
 *
 * @typedef {object} Film
 * @property {number[]} players
 * @property {Record<string, Point>} from  where each player stands at the beginning; extras, where they come in
 * @property {number} holder  who has the ball at the beginning; 0: it lies
 * @property {Point} [lies]  where it lies at the beginning
 * @property {Record<string, [number, number][]>} shown  when each extra (x1, c, k1, …) comes in and leaves, in order
 * @property {Record<string, number>} men  whom each defender keeps to
 * @property {Cue[]} cues
 * @property {Record<string, Run[]>} runs  by player or extra, in order
 * @property {Toss[]} tosses  in order
 * @property {number} end
 *
 * @typedef {object} BallPose
 * @property {number} x
 * @property {number} y
 * @property {number} holder  player, 0 while it flies or lies
 * @property {number} open  1 around its holder, 0 in free flight
 */

/** How long the ball takes to leave the shape it has around a holder, seconds. */
const SHED = 0.12;
/** @type {Point} */
const BASKET = [0, 0];
/** @type {Point} */
const NOWHERE = [0, 0];
/** How long an extra takes to come in, and to leave, seconds. */
export const FADE = 0.3;

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
 * @param {number | string} player
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
  const [u, v] = run.aside ?? NOWHERE;
  return [x + run.bend[0] * (1 - way) + u * way, y + run.bend[1] * (1 - way) + v * way];
}

/**
 * Where the ball is and who has it.
 * @param {Film} film
 * @param {number} t
 * @returns {BallPose}
 */
export function ballAt(film, t) {
  const toss = film.tosses[begun(film.tosses, t)];
  if (!toss) return film.holder ? held(film, film.holder, t) : loose(film.lies);
  if (t >= toss.t1) return toss.to ? held(film, toss.to, t) : loose(toss.at);
  const u = (t - toss.t0) / (toss.t1 - toss.t0);
  const thrown = toss.kind === "pass" || toss.kind === "shot" || toss.kind === "loose";
  const a = toss.from ? where(film, toss.from, thrown ? toss.t0 : t) : (toss.out ?? BASKET);
  const b = toss.to ? where(film, toss.to, thrown ? toss.t1 : t) : (toss.at ?? BASKET);
  const shed = Math.min(SHED, (toss.t1 - toss.t0) / 2);
  const leaving = toss.from ? 1 - Math.min(1, (t - toss.t0) / shed) : 0;
  const arriving = toss.to ? 1 - Math.min(1, (toss.t1 - t) / shed) : 0;
  return { x: a[0] + (b[0] - a[0]) * u, y: a[1] + (b[1] - a[1]) * u, holder: 0, open: Math.max(leaving, arriving) };
}

/** In nobody's hands: on the floor, or through the basket. @param {Point} [place] @returns {BallPose} */
function loose([x, y] = BASKET) {
  return { x, y, holder: 0, open: 0 };
}

/** Where the ball lies on the floor; null while it does not. @param {Film} film @param {number} t @returns {Point | null} */
export function lying(film, t) {
  const toss = film.tosses[begun(film.tosses, t)];
  if (!toss) return film.lies ?? null;
  return (t >= toss.t1 && toss.at) || null;
}

/**
 * How much of an extra is to be seen: 0 not there, 1 there.
 * @param {Film} film
 * @param {string} key
 * @param {number} t
 */
export function presence(film, key, t) {
  let most = 0;
  for (const [t0, t1] of film.shown[key] ?? []) most = Math.max(most, Math.min(1, (t - t0) / FADE, 1 - (t - t1) / FADE));
  return most;
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
 * Whether anybody is on his way at time t, or the ball is.
 * @param {Film} film
 * @param {number} t
 */
export function isBusy(film, t) {
  const under = (/** @type {{t0: number, t1: number}} */ { t0, t1 }) => t0 < t - 1e-6 && t < t1 - 1e-6;
  return film.tosses.some(under) || Object.values(film.runs).some((runs) => runs.some(under));
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
