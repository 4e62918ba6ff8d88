/** The film of a chain: when its steps begin and extras come and leave, and where all and the ball are at some times. */

import { ballAt, where } from "../../../static/js/steps/film.js";
import { compose, standing } from "../../../static/js/steps/schedule.js";

/**
 * @typedef {import("../../../static/js/state/wire.js").Point} Point
 * @param {object} chain
 * @param {import("../../../static/js/state/wire.js").Standing} chain.start
 * @param {Record<string, Point>} chain.spots
 * @param {import("../../../static/js/state/wire.js").StepWire[]} chain.steps
 * @param {number[]} chain.times  seconds
 * @param {number | null} [chain.breath]  at taught pace, seconds
 */
export default function ({ start, spots, steps, times, breath = null }) {
  const film = breath === null ? compose(standing(start, spots), steps)
    : compose(standing(start, spots), steps, steps.map(() => Infinity), breath);
  const who = [...film.players, ...Object.keys(film.shown)];
  const ends = (/** @type {[number, number]} */ [t0, t1]) => [Number.isFinite(t0) ? t0 : 0, Number.isFinite(t1) ? t1 : null];
  return {
    end: film.end,
    starts: film.cues.map((cue) => cue.start),
    shown: Object.fromEntries(Object.entries(film.shown).map(([key, all]) => [key, all.map(ends)])),
    places: times.map((t) => Object.fromEntries(who.map((one) => [one, where(film, one, t)]))),
    ball: times.map((t) => ballAt(film, t)),
  };
}
