/** The row of buttons under the court and the bar to scrub with. */

import { Bar } from "../court/progress.js";
import { sayBoard } from "../words/board-words.js";
import { sayPace } from "../words/pace-words.js";
import { showPace } from "../ui/pace.js";

/**
 * @typedef {import("./transport.js").Progress} Progress
 *
 * @typedef {object} Handlers  what each button does, by its `data-do`
 * @property {() => void} undo
 * @property {() => void} redo
 * @property {() => void} replay
 * @property {() => void} back
 * @property {() => void} play
 * @property {() => void} forward
 * @property {() => void} speed
 * @property {() => void} turn
 * @property {() => void} mirror
 * @property {() => void} menu
 * @property {() => void} share
 * @property {() => void} subs
 * @property {() => void} plays
 * @property {() => void} save
 * @property {() => void} recover
 * @property {() => void} byHand
 * @property {() => void} putBack
 * @property {() => void} join
 * @property {() => void} fresh
 * @property {() => void} loop
 * @property {() => void} clock
 * @property {() => void} present
 * @property {() => void} leave
 * @property {() => void} quick  the code to join by
 * @property {(t: number) => void} scrub  film seconds
 */

/** Speeds to play at. */
export const RATES = [0.5, 1, 1.5];
/** So often the bar says where it is while it moves, film seconds: nobody sees it, and every new value lays it out. */
const SAID = 1;
/** @param {Progress} progress  what the bar says, film seconds */
const saidAt = ({ t, end, playing }) => (playing && t < end ? Math.floor(t / SAID) * SAID : t);

export class Controls {
  /** @param {HTMLElement} root  holds elements with `data-do` @param {Handlers} handlers */
  constructor(root, handlers) {
    /** @type {Record<string, HTMLButtonElement>} */
    this.buttons = {};
    for (const button of root.querySelectorAll("button[data-do]")) {
      if (!(button instanceof HTMLButtonElement)) continue;
      const name = String(button.dataset.do);
      this.buttons[name] = button;
      button.addEventListener("click", () => Reflect.get(handlers, name)?.());
    }
    this.scrub = /** @type {HTMLInputElement} */ (root.querySelector("#scrub"));
    this.bar = new Bar(/** @type {HTMLElement} */ (root.querySelector(".track")));
    this.ticks = /** @type {HTMLElement} */ (root.querySelector(".ticks"));
    this.scrub.addEventListener("input", () => handlers.scrub(Number(this.scrub.value)));
    this.lasts = root.querySelector("#lasts");
    this.marks = "";
    /** The moment the bar says, film seconds. */
    this.said = NaN;
  }

  /**
   * @param {Progress} progress
   * @param {number} count  steps in the chain
   * @param {boolean} [loop]  it will be played again and again
   */
  show(progress, count, loop = false) {
    const { t, end, depth, playing, speed } = progress;
    const { play, back, forward, replay } = this.buttons;
    play.classList.toggle("on", playing);
    play.setAttribute("aria-label", playing ? sayBoard("pause") : sayBoard("play"));
    play.disabled = replay.disabled = !count;
    back.disabled = depth === 0;
    forward.disabled = depth >= count;
    // A page kept from before has none.
    if (this.buttons.loop) {
      this.buttons.loop.disabled = !count;
      this.buttons.loop.setAttribute("aria-pressed", String(loop));
    }
    this.scrub.disabled = !count;
    const max = String(Math.max(end, 0.01));
    if (this.scrub.max !== max) this.scrub.max = max;
    const now = saidAt(progress);
    if (!playing || this.said !== now) this.scrub.value = String(now);
    this.said = now;
    this.bar.show(end ? t / end : 0, speed ? (end - t) / speed : 0);
  }

  /** Whether the bar has to say something else than it said last. @param {Progress} progress */
  isBehind(progress) {
    return saidAt(progress) !== this.said;
  }

  /**
   * Mark on the bar where each step begins.
   * @param {number[]} starts  film seconds
   * @param {number} end
   */
  mark(starts, end) {
    const marks = starts.map((start) => (end ? start / end : 0));
    if (marks.join() === this.marks) return;
    this.marks = marks.join();
    this.ticks.replaceChildren(
      ...marks.map((at) => {
        const tick = document.createElement("i");
        tick.style.left = `${at * 100}%`;
        return tick;
      }),
    );
  }

  /** Whether there is a chain to start again from. @param {boolean} chain */
  anew(chain) {
    this.buttons.fresh.disabled = !chain;
  }

  /** @param {boolean} undo @param {boolean} redo */
  history(undo, redo) {
    this.buttons.undo.disabled = !undo;
    this.buttons.redo.disabled = !redo;
  }

  /** @param {import("../ui/pace.js").Pace} pace @param {number} lasts  the whole chain, seconds */
  pace(pace, lasts) {
    showPace(this.buttons.speed, pace);
    const n = Math.round(lasts);
    // A page kept from before has none.
    if (this.lasts) this.lasts.textContent = n ? sayPace("lasts", { n }) : "";
  }
}
