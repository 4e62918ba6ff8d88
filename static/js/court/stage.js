/**
 * The stage: plays a film with discs and a ball as HTML elements over the court.
 *
 * Everything moves by Web Animations on `transform` alone (extras come and go by `opacity`), sampled along the
 * routes, so that it goes on smoothly while the page is busy. Whatever is on screen when something new begins glides over into it.
 */

import { drifted, GLIDE, poseOf, sampleTimes } from "../steps/clip.js";
import { FADE } from "../steps/film.js";
import { inside } from "./projection.js";

/**
 * @typedef {import("../steps/film.js").Film} Film
 * @typedef {import("./projection.js").Projection} Projection
 * @typedef {import("../state/wire.js").Point} Point
 *
 * @typedef {object} Actors  the elements that move
 * @property {Record<number, HTMLElement>} discs  by player
 * @property {HTMLElement} ring  wraps whoever has the ball, shrinks to the ball in flight
 * @property {HTMLElement} ball
 * @property {Record<string, HTMLElement>} extras  defenders, the coach and cones of the film on show
 * @property {(keys: string[]) => HTMLElement[]} cast  have these extras and no others; returns those that were taken out
 * @typedef {import("../steps/clip.js").Clip} Clip
 * @typedef {import("../steps/clip.js").Pose} Pose
 */

/** Longest piece played at once, film seconds: bounds the keyframes that are made at a tap. */
const PIECE = 20;
/** Size of the ring in flight, as a share of its size around a player. */
const FLYING = 0.4;
/** Where a held ball sits on its holder, in disc radii on the screen. */
const HELD = 0.76;

export class Stage {
  /** @param {Actors} actors */
  constructor(actors) {
    this.actors = actors;
    /** @type {Projection | null} */
    this.projection = null;
    /** @type {Clip | null} */
    this.clip = null;
    /** @type {Animation[]} */
    this.animations = [];
    this.still = false;
    /** Called when the piece that was asked for has been played. */
    this.onDone = () => {};
  }

  /** Film seconds on show now. */
  now() {
    const { clip } = this;
    return clip ? clip.from + Math.min(clip.span, this.#elapsed()) : 0;
  }

  get playing() {
    return Boolean(this.clip?.running && this.clip.span > 0);
  }

  /** Film seconds a second; 0 while everybody stands. */
  get speed() {
    return this.clip && this.playing && this.#elapsed() < this.clip.span ? this.clip.rate : 0;
  }

  /** @param {Projection} projection */
  fit(projection) {
    this.projection = projection;
    if (!this.clip) return;
    const { film, from, span, rate, running } = this.clip;
    if (running && span > 0) this.play(film, this.now(), this.until ?? from + span, rate);
    else this.show(film, this.now());
  }

  /**
   * Show one moment. Glides there unless `glide` is false.
   * @param {Film} film
   * @param {number} t
   * @param {boolean} [glide]
   */
  show(film, t, glide = true) {
    this.#begin(film, t, 0, 1, glide);
  }

  /**
   * Play a film from one time to another.
   * @param {Film} film
   * @param {number} from
   * @param {number} to
   * @param {number} rate
   */
  play(film, from, to, rate) {
    if (to <= from) {
      this.show(film, to);
      this.onDone();
      return;
    }
    this.until = to;
    this.#begin(film, from, Math.min(to - from, PIECE), rate, true);
  }

  /** Stop where we are. */
  pause() {
    if (this.clip && this.playing) this.show(this.clip.film, this.now());
  }

  #elapsed() {
    const { clip } = this;
    if (!clip || !clip.running) return Infinity; // all of it, its drift too, is behind us
    return (Math.max(0, time() - clip.began) / 1000) * clip.rate;
  }

  /**
   * @param {Film} film
   * @param {number} from
   * @param {number} span
   * @param {number} rate
   * @param {boolean} glide
   */
  #begin(film, from, span, rate, glide) {
    const before = this.#poses();
    for (const key of Object.keys(film.shown)) before[key] ??= { x: 0, y: 0, open: 0 };
    /** @type {Clip} */
    const clip = { film, from, span, rate, began: time(), drift: {}, running: true };
    let drifting = false;
    for (const [key, was] of Object.entries(before)) {
      if (!glide || this.still || !this.#isIn(film, key)) continue;
      const pose = poseOf(film, key, from);
      const extra = key in film.shown;
      // An extra nobody sees has no way to come.
      const [x, y] = extra && !was.open ? [0, 0] : [was.x - pose.x, was.y - pose.y];
      const open = extra ? was.open - pose.open : 0;
      if (Math.hypot(x, y) < 1 && Math.abs(open) < 0.01) continue;
      clip.drift[key] = { x, y, open };
      drifting = true;
    }
    const old = this.animations;
    this.#cast(film, glide);
    this.clip = clip;
    this.animations = [];
    if (this.projection && (span > 0 || drifting)) this.#animate(clip, Math.max(span, drifting ? GLIDE * rate : 0));
    else clip.running = false;
    this.#settle();
    for (const animation of old) {
      animation.onfinish = null;
      animation.cancel();
    }
  }

  /** Where everything is on screen now, drift included. @returns {Record<string, Pose>} */
  #poses() {
    const { clip } = this;
    /** @type {Record<string, Pose>} */
    const poses = {};
    if (clip) for (const key of this.#keys()) poses[key] = drifted(clip, key, this.#elapsed());
    return poses;
  }

  #keys() {
    return [...Object.keys(this.actors.discs), ...Object.keys(this.actors.extras), "ball"];
  }

  /** @param {Film} film @param {string} key */
  #isIn(film, key) {
    return key === "ball" || key in film.runs;
  }

  /** Have the extras of a film, and let the others fade. @param {Film} film @param {boolean} glide */
  #cast(film, glide) {
    for (const gone of this.actors.cast(Object.keys(film.shown))) {
      if (!glide || this.still) gone.remove();
      else gone.animate({ opacity: [getComputedStyle(gone).opacity, "0"] }, FADE * 1000).onfinish = () => gone.remove();
    }
  }

  /** @param {Clip} clip @param {number} length  film seconds, drift included */
  #animate(clip, length) {
    const times = sampleTimes(clip, length);
    for (const key of this.#keys()) {
      const own = times[key] ?? [0, length];
      const poses = own.map((t) => ({ offset: Math.min(1, t / length), pose: drifted(clip, key, t) }));
      const steady = poses.every(({ pose }) => pose.open === poses[0].pose.open);
      for (const [element, draw] of this.#parts(key)) {
        const frames = poses.map(({ offset, pose }) => ({ offset, ...draw(pose) }));
        // One thing less to work out in every frame: it keeps what it has been given.
        if (steady) for (const frame of frames) delete frame.opacity;
        const animation = element.animate(frames, { duration: length * 1000, fill: "forwards" });
        animation.playbackRate = clip.rate;
        animation.startTime = clip.began;
        this.animations.push(animation);
      }
    }
    this.animations[0].onfinish = () => this.#finished(clip);
  }

  /**
   * The elements an actor is made of, each with how a pose is drawn on it.
   * @param {string} key
   * @returns {[HTMLElement, (pose: Pose) => {transform: string, opacity?: string}][]}
   */
  #parts(key) {
    const projection = /** @type {Projection} */ (this.projection);
    const at = (/** @type {Pose} */ pose) => inside(projection, projection.px([pose.x, pose.y]));
    const { discs, extras, ring, ball } = this.actors;
    if (extras[key]) return [[extras[key], (pose) => ({ transform: move(at(pose)), opacity: pose.open.toFixed(2) })]];
    if (key !== "ball") return [[discs[Number(key)], (pose) => ({ transform: move(at(pose)) })]];
    const out = projection.radius * HELD;
    return [
      [ring, (pose) => ({ transform: `${move(at(pose))} scale(${(FLYING + (1 - FLYING) * pose.open).toFixed(3)})` })],
      [ball, (pose) => {
        const [x, y] = at(pose);
        return { transform: move([x + out * pose.open, y - out * pose.open]) };
      }],
    ];
  }

  /** Put the last pose on the elements themselves, under the animations. */
  #settle() {
    const { clip } = this;
    if (!clip || !this.projection) return;
    for (const key of this.#keys()) {
      const pose = poseOf(clip.film, key, clip.from + clip.span);
      for (const [element, draw] of this.#parts(key)) Object.assign(element.style, draw(pose));
    }
  }

  /** @param {Clip} clip */
  #finished(clip) {
    if (this.clip !== clip) return;
    const end = clip.from + clip.span;
    clip.running = false;
    for (const animation of this.animations) animation.cancel();
    this.animations = [];
    if (clip.span <= 0) return;
    if (end < (this.until ?? end) - 1e-6) this.play(clip.film, end, this.until ?? end, clip.rate);
    else this.onDone();
  }
}

function time() {
  return Number(document.timeline.currentTime ?? performance.now());
}

/** @param {Point} point */
function move([x, y]) {
  return `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
}
