/** Playing a drawing on the stage, from where everybody begins to the end, before it is in the chain. */

import { stopsOf } from "./preview.js";

/** How long a moment stands when movement is not wanted, milliseconds. */
const HOLD_MS = 1600;

export class Showing {
  /** @param {import("../court/stage.js").Stage} stage @param {() => void} over  it has come to its end, or was stopped */
  constructor(stage, over) {
    this.stage = stage;
    this.over = over;
    this.on = false;
    this.timer = 0;
    this.ended = stage.onDone; // whose stage it is else
  }

  /** The stage is ours. */
  take() {
    this.ended = this.stage.onDone;
    this.stage.onDone = () => this.stop();
  }

  /** It is the board's again. */
  leave() {
    this.stop();
    this.stage.onDone = this.ended;
  }

  /** @param {import("./preview.js").Preview} preview @param {number} rate */
  play({ film, plan }, rate) {
    this.on = true;
    if (!this.stage.still) {
      this.stage.show(film, 0, false);
      return this.stage.play(film, 0, film.end, rate);
    }
    const stops = [0, ...stopsOf(plan)];
    const next = () => {
      const t = stops.shift();
      if (t === undefined) return this.stop();
      this.stage.show(film, t, false);
      this.timer = window.setTimeout(next, HOLD_MS / rate);
    };
    next();
  }

  stop() {
    clearTimeout(this.timer);
    if (!this.on) return;
    this.on = false;
    this.over();
  }
}
