/** The transport: which film is on the stage and how it is wound. Knows no server and no buttons. */

import { depthAt, isBusy } from "../steps/film.js";
import { compose, extend, isRecovery, standing, stood } from "../steps/schedule.js";
import { STRAY } from "../steps/figures.js";
import { LaidChain } from "./laid-chain.js";

/**
 * @typedef {import("../steps/film.js").Film} Film
 * @typedef {import("../state/wire.js").StepWire} StepWire
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../court/stage.js").Stage} Stage
 *
 * @typedef {object} Progress
 * @property {number} t  film seconds
 * @property {number} end  film seconds
 * @property {number} depth  how many steps have begun
 * @property {boolean} playing
 * @property {number} speed  film seconds a second goes on by itself; 0 where it stands, or jumps from end to end
 * @property {boolean} replaying  playing what was there before, not an action just chosen
 * @property {boolean} paused  standing still while somebody is on his way, or the ball is: no moment to choose at
 */

/** The bar stops at the begin and end of a step from so near, seconds. */
const SNAP = 0.06;
/** How long a step stands when movement is not wanted, seconds. */
const HOLD = 1.6;
/** How long everybody stands at the end before it all begins again, seconds. */
const BEFORE_AGAIN = 1.2;

export class Transport extends LaidChain {
  /** @param {Stage} stage @param {() => void} changed  called when anything of `progress` may have changed */
  constructor(stage, changed) {
    super();
    this.stage = stage;
    this.changed = changed;
    /** @type {"rest" | "live" | "chain"} */
    this.mode = "rest";
    this.strayed = false; // somebody stands where he was put by hand
    /** Play the whole chain again and again. */
    this.loop = false;
    this.whole = false; // it is the whole chain that plays, not a step of it
    this.began = 0; // with which step that began
    this.hop = 0;
    this.until = 0;
    stage.onDone = () => this.#done();
  }

  /** @returns {Progress} */
  get progress() {
    const { depth, mode, film } = this;
    const [t, end] = [this.stage.now(), film?.end ?? 0];
    const paused = mode === "rest" && film !== null && t < end - 1e-6 && isBusy(film, t);
    return { t, end, depth, playing: mode !== "rest", replaying: mode === "chain", paused, speed: this.stage.speed };
  }

  /** Steps begun. */
  get depth() {
    const { film, steps } = this;
    if (!film || this.mode === "live") return steps.length;
    const t = this.stage.now();
    return t >= film.end - 1e-6 ? steps.length : depthAt(film, t);
  }

  /**
   * Begin with a chain, everybody at rest at its end.
   * @param {Standing} start @param {Record<string, Point>} spots @param {StepWire[]} steps
   */
  load(start, spots, steps) {
    this.begin = standing(start, spots);
    this.lay(steps);
    this.#rest(this.film?.end ?? 0);
  }

  /**
   * Take over a changed chain: one step more is played at once, fewer are left at a glide.
   * @param {StepWire[]} steps
   * @param {boolean} follow  leave what is being looked at for the new step
   */
  sync(steps, follow) {
    if (!this.begin || !this.film) return;
    let same = 0;
    while (same < steps.length && steps[same] === this.steps[same]) same++;
    if (same === steps.length && same === this.steps.length) return;
    const one = steps.length === same + 1;
    if (one && (follow || this.depth >= this.steps.length)) this.#live(steps, same);
    else if (one && this.depth <= same) {
      this.steps = steps;
      this.gaps = this.gaps.slice(0, same);
      this.gaps[same] = this.waits;
      this.film = this.laid(steps);
      this.stage.show(this.film, this.stage.now());
    } else {
      this.lay(steps);
      this.#rest(this.film.end);
    }
    this.changed();
  }

  /** @param {StepWire[]} steps @param {number} same */
  #live(steps, same) {
    const begin = /** @type {Film} */ (this.begin);
    const gaps = this.still ? [] : this.gaps.slice(0, same);
    const base = same === this.steps.length && !this.still
      ? /** @type {Film} */ (this.film)
      : compose(begin, steps.slice(0, same), gaps, this.taught ? this.breath : 0);
    const t = Math.min(this.stage.now(), base.end);
    if (same) gaps[same] = this.still ? Infinity : Math.max(0, t - base.cues[same - 1].start);
    this.steps = steps;
    this.gaps = gaps;
    this.film = extend(base, steps[same], gaps[same]);
    this.mode = "live";
    // Who is out there already has not to be brought there first.
    const out = this.strayed && isRecovery(steps[same]);
    this.#roll(out ? this.film.cues[same].start + STRAY : t, this.film.end);
  }

  /**
   * Show everybody at rest, somewhere else than the film has them; null: where it does.
   * @param {Record<number, Point> | null} places  centimetres
   */
  stray(places) {
    if (!this.film || this.mode !== "rest") return;
    const t = this.stage.now();
    this.strayed = places !== null;
    if (places) this.stage.show(stood(this.film, t, places), t, false);
    else this.stage.show(this.film, t);
  }

  play() {
    if (!this.film || !this.steps.length) return;
    if (this.stage.now() >= this.film.end - 1e-6) return this.replay();
    this.began = this.progress.paused ? this.depth - 1 : this.depth;
    this.mode = "chain";
    this.whole = true;
    this.#roll(this.stage.now(), this.film.end);
    this.changed();
  }

  pause() {
    this.#halt();
    this.stage.pause();
    this.changed();
  }

  toggle() {
    if (this.mode === "rest") this.play();
    else this.pause();
  }

  /** Play the whole chain from the start. */
  replay() {
    this.playFrom(0);
  }

  /** Play the chain from its step of this number to its end. @param {number} index */
  playFrom(index) {
    if (!this.steps.length) return;
    this.lay(this.steps);
    [this.mode, this.whole, this.began] = ["chain", true, index];
    this.#roll(index ? this.restTime(index) : 0, this.film?.end ?? 0);
    this.changed();
  }

  /** Play one step and stop. */
  forward() {
    const depth = this.depth;
    if (depth < this.steps.length) this.#one(depth);
  }

  /** Stand where the step under way, or the last one, began. */
  back() {
    if (this.depth > 0) this.goTo(this.depth - 1);
  }

  /** Show one step of the chain: from where it begins to its end. @param {number} index */
  watch(index) {
    if (index >= 0 && index < this.steps.length) this.#one(index);
  }

  /** Stand still after `depth` steps. @param {number} depth */
  goTo(depth) {
    this.lay(this.steps, depth);
    this.#rest(this.restTime(depth));
    this.changed();
  }

  /** Show a moment of the film. @param {number} t */
  seek(t) {
    this.#halt();
    const { film } = this;
    if (film) {
      // The bar goes by steps: it comes to rest where everybody does.
      const near = [film.end, ...film.cues.flatMap(({ start, end }) => [start, end])].find((stop) => Math.abs(stop - t) < SNAP);
      this.stage.show(film, Math.min(film.end, Math.max(0, near ?? t)), false);
    }
    this.changed();
  }

  /** Turned on, it plays at once; turned off, what plays goes to its end. @param {boolean} on */
  setLoop(on) {
    this.loop = on;
    if (on && !(this.mode === "chain" && this.whole)) this.play();
    else if (!on && this.#breathing) this.#halt();
    this.changed();
  }

  /** At the end, about to begin again. */
  get #breathing() {
    return this.mode === "chain" && this.whole && this.stage.now() >= (this.film?.end ?? 0) - 1e-6;
  }

  /** @param {import("../ui/pace.js").Pace} pace */
  choose({ rate, taught }) {
    this.setPace({ taught });
    if (rate !== this.rate) this.setRate(rate);
  }

  /** @param {number} rate */
  setRate(rate) {
    this.rate = rate;
    if (this.mode !== "rest" && !this.still) this.#roll(this.stage.now(), this.until);
    this.changed();
  }

  /** @param {number} index */
  #one(index) {
    this.lay(this.steps, index, index + 1);
    [this.mode, this.whole, this.began] = ["chain", false, index];
    this.#roll(this.restTime(index), this.restTime(index + 1));
    this.changed();
  }

  /**
   * Another pace: what is looked at stays as far as it had come; what was just tapped plays to its end.
   * @param {{taught?: boolean, breath?: number}} pace
   */
  setPace({ taught = this.taught, breath = this.breath }) {
    if (taught === this.taught && breath === this.breath) return;
    const { film, mode, whole } = this;
    Object.assign(this, { taught, breath });
    if (film && (mode === "rest" || (mode === "chain" && whole))) this.#relay(film);
    this.changed();
  }

  /** @param {Film} before */
  #relay(before) {
    const t = this.stage.now();
    const at = before.cues.filter(({ start }) => start <= t + 1e-6).length - 1;
    const cue = before.cues[at];
    const atEnd = t >= before.end - 1e-6;
    // Where one stands between two steps one goes on standing there.
    if (this.mode === "rest" && !atEnd && cue && Math.abs(t - cue.start) < 1e-6) return this.goTo(at);
    this.lay(this.steps);
    const film = /** @type {Film} */ (this.film);
    const now = atEnd ? film.end : cue ? Math.min(film.cues[at].start + t - cue.start, film.cues[at].end) : t;
    if (this.mode === "rest") this.stage.show(film, now);
    else this.#roll(now, film.end);
  }

  #halt() {
    clearTimeout(this.hop);
    this.mode = "rest";
    this.strayed = false;
  }

  /** @param {number} t */
  #rest(t) {
    this.#halt();
    if (this.film) this.stage.show(this.film, t);
  }

  /** @param {number} from @param {number} to */
  #roll(from, to) {
    clearTimeout(this.hop);
    this.strayed = false;
    const film = /** @type {Film} */ (this.film);
    this.until = to;
    if (!this.still) return this.stage.play(film, from, to, this.rate);
    const stops = film.cues.flatMap(({ set, end }) => (set === undefined ? [end] : [set, end]));
    const t = Math.min(to, stops.find((stop) => stop > from + 1e-6) ?? to);
    this.stage.show(film, t, false);
    if (t >= to - 1e-6) this.#done();
    else this.hop = window.setTimeout(() => (this.#roll(t, to), this.changed()), (HOLD * 1000) / this.rate);
  }

  #done() {
    if (this.loop && this.#breathing) {
      clearTimeout(this.hop);
      this.hop = window.setTimeout(() => this.replay(), BEFORE_AGAIN * 1000);
      return this.changed();
    }
    this.mode = "rest";
    this.changed();
  }
}
