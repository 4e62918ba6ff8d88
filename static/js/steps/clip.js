/** A clip: one piece of a film as the stage plays it, and where each actor is at any time of it. No DOM. */

import { ballAt, FADE, presence, where } from "./film.js";

/**
 * @typedef {import("./film.js").Film} Film
 * @typedef {import("../state/wire.js").Point} Point
 *
 * @typedef {{x: number, y: number, open: number}} Pose  centimetres; `open`: of the ball, 1 around its holder; of an
 *   extra, how much of him is to be seen
 *
 * @typedef {object} Clip  what plays now
 * @property {Film} film
 * @property {number} from  film seconds
 * @property {number} span  film seconds that are played, 0 for a still
 * @property {number} rate  film seconds a second
 * @property {number} began  ms on the document's timeline
 * @property {Record<string, Pose>} drift  how far off each actor begins from what he should be
 * @property {boolean} running
 */

/** Samples a run is drawn with. */
const SAMPLES = 24;
/** What takes no time is drawn over so long, seconds. */
const AT_ONCE = 0.03;
/** Seconds over which what is on screen glides into what is to be shown. */
export const GLIDE = 0.3;

/** @param {Film} film @param {string} key @param {number} t @returns {Pose} */
export function poseOf(film, key, t) {
  if (key === "ball") return ballAt(film, t);
  const [x, y] = where(film, key, t);
  return { x, y, open: presence(film, key, t) };
}

/** @param {Clip} clip @param {string} key @param {number} elapsed  film seconds since it began */
export function drifted(clip, key, elapsed) {
  const pose = poseOf(clip.film, key, clip.from + Math.min(clip.span, elapsed));
  const drift = clip.drift[key];
  if (!drift) return pose;
  const left = Math.max(0, 1 - elapsed / clip.rate / GLIDE);
  const share = left * left * (3 - 2 * left);
  return { x: pose.x + drift.x * share, y: pose.y + drift.y * share, open: pose.open + drift.open * share };
}

/**
 * The times each actor's place is sampled at: more where he runs, none where he stands.
 * @param {Clip} clip
 * @param {number} length
 */
export function sampleTimes(clip, length) {
  const end = clip.from + clip.span;
  const glide = Object.keys(clip.drift).length ? steps(0, Math.min(length, GLIDE * clip.rate), 10) : [];
  /** @type {Record<string, number[]>} */
  const times = {};
  const inClip = (/** @type {number} */ t) => t > clip.from && t < end;
  const every = (/** @type {{t0: number, t1: number}} */ { t0, t1 }) =>
    t1 > clip.from && t0 < end ? steps(t1 > t0 ? t0 : t0 - AT_ONCE, t1, SAMPLES).filter(inClip).map((t) => t - clip.from) : [];
  const fades = (/** @type {[number, number]} */ [t0, t1]) =>
    [t0, t0 + FADE, t1, t1 + FADE].filter(inClip).map((t) => t - clip.from);
  const tosses = clip.film.tosses.flatMap(every);
  const ball = [...tosses];
  for (const key of clip.film.players.map(String)) {
    const own = (clip.film.runs[Number(key)] ?? []).flatMap(every);
    ball.push(...own);
    times[key] = tidy([0, ...glide, ...own, length]);
  }
  for (const [key, shown] of Object.entries(clip.film.shown)) {
    times[key] = tidy([0, ...glide, ...shown.flatMap(fades), ...clip.film.runs[key].flatMap(every), length]);
  }
  times.ball = tidy([0, ...glide, ...ball, length]);
  return times;
}

/** @param {number} from @param {number} to @param {number} count */
function steps(from, to, count) {
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
}

/** @param {number[]} times */
function tidy(times) {
  return [...new Set(times.map((t) => Math.round(t * 1000) / 1000))].sort((a, b) => a - b);
}
