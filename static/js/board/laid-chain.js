/**
 * A chain laid on one clock as it is to be played: with which gaps, at which pace, and what follows from that.
 *
 * `gaps[i]` says when step i begins after the one before it: a live tap keeps its own moment, a step one stops
 * before waits until all have arrived. At taught pace every step does, whenever the chain is laid anew.
 */

import { resting } from "../steps/film.js";
import { compose } from "../steps/schedule.js";
import { BREATH } from "../steps/figures.js";

/**
 * @typedef {import("../steps/film.js").Film} Film
 * @typedef {import("../state/wire.js").StepWire} StepWire
 */

export class LaidChain {
  constructor() {
    this.rate = 1;
    /** Everybody arrives and stands for a breath before the next action; else it begins when the handler is ready. */
    this.taught = true;
    /** Seconds. In the big view there is none. */
    this.breath = BREATH;
    /** @type {StepWire[]} */
    this.steps = [];
    /** @type {(number | undefined)[]} */
    this.gaps = [];
    /** @type {Film | null} */
    this.begin = null;
    /** @type {Film | null} */
    this.film = null;
    /** Show end positions in steps instead of movement. */
    this.still = false;
    /** How long the whole chain lasts, and what that was worked out for. */
    this.measured = { key: /** @type {unknown[]} */ ([]), end: 0 };
  }

  /** When each step begins, film seconds. */
  get starts() {
    return this.film?.cues.map((cue) => cue.start) ?? [];
  }

  /** Where everybody stands once `depth` steps are done. @param {number} depth */
  places(depth) {
    return this.film ? resting(this.film, depth) : {};
  }

  /** A film of these steps that comes to rest before each of `stops`. @param {StepWire[]} steps @param {number[]} stops */
  lay(steps, ...stops) {
    if (!this.begin) return;
    this.steps = steps;
    this.gaps = steps.map(() => this.waits);
    for (const stop of stops) this.gaps[stop] = Infinity;
    this.film = this.laid(steps);
  }

  /** The gap of a step that nothing else is said of. */
  get waits() {
    return this.still || this.taught ? Infinity : undefined;
  }

  /** @param {StepWire[]} steps */
  laid(steps) {
    return compose(/** @type {Film} */ (this.begin), steps, this.gaps, this.taught ? this.breath : 0);
  }

  /** The whole chain from its start as it is set now, seconds. */
  get lasts() {
    const { begin, steps, rate } = this;
    if (!begin || !steps.length) return 0;
    const key = [begin, steps, this.still, this.taught, this.breath];
    if (key.some((part, i) => part !== this.measured.key[i])) {
      this.measured = { key, end: compose(begin, steps, steps.map(() => this.waits), this.taught ? this.breath : 0).end };
    }
    return this.measured.end / rate;
  }

  /** @param {number} depth */
  restTime(depth) {
    const film = /** @type {Film} */ (this.film);
    return depth < film.cues.length ? film.cues[depth].start : film.end;
  }
}
