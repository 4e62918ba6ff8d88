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
 * @typedef {import("./wire.js").Point} Point
 * @typedef {import("./path.js").Route} Route
 *
 * @typedef {object} Run  one player along one path
 * @property {number} t0
 * @property {number} t1
 * @property {Route} path
 * @property {string} style  cut | dribble | screen | hand | carry | stray
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
 * @property {Record<string, Point>} from  where each player stands at the beginning
 * @property {number} holder  who has the ball at the beginning
 * @property {Cue[]} cues
 * @property {Record<string, Run[]>} runs  by player, in order
 * @property {Toss[]} tosses  in order
 * @property {number} end
 *
 * @typedef {object} BallPose
 * @property {number} x
 * @property {number} y
 * @property {number} holder  player, 0 while it flies
 * @property {number} open  1 around its holder, 0 in free flight
 */

/** How long the ball takes to leave the shape it has around a holder, seconds. */
const SHED = 0.12;

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
