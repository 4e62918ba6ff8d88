/**
 * How far the bar is, drawn: while a film plays the browser moves it by itself, as it moves the players, so that the
 * page has nothing to do for it in a frame.
 */

/** Of the bar's length; from there on it has to be put right. */
const OFF = 0.005;

export class Bar {
  /** @param {HTMLElement} track  holds a groove with what has been played, and the knob */
  constructor(track) {
    this.track = track;
    const groove = /** @type {HTMLElement} */ (track.querySelector(".groove"));
    this.knob = /** @type {HTMLElement} */ (groove.querySelector("b"));
    this.fill = document.createElement("i");
    const clip = document.createElement("span");
    clip.append(this.fill);
    groove.prepend(clip);
    /** @type {Animation[]} */
    this.running = [];
    this.from = 0;
    this.key = "";
    this.done = NaN;
  }

  /**
   * @param {number} share  of the film, played so far
   * @param {number} seconds  until all of it has been played, if it goes on; 0: it stands
   */
  show(share, seconds) {
    const whole = seconds / (1 - share);
    if (!(seconds > 0) || !Number.isFinite(whole)) return this.#stand(share);
    const key = whole.toFixed(2);
    if (key === this.key && Math.abs(this.#now() - share) < OFF) return;
    this.#stop();
    [this.key, this.from, this.done] = [key, share, NaN];
    const timing = { duration: seconds * 1000, fill: /** @type {FillMode} */ ("forwards") };
    this.running = [
      this.knob.animate({ transform: [`translateX(${share * 100}cqi)`, "translateX(100cqi)"] }, timing),
      this.fill.animate({ transform: [`translateX(${(share - 1) * 100}%)`, "translateX(0)"] }, timing),
    ];
  }

  /** @param {number} share */
  #stand(share) {
    this.#stop();
    if (share === this.done) return;
    this.done = share;
    this.track.style.setProperty("--done", String(share));
  }

  #stop() {
    for (const animation of this.running) animation.cancel();
    [this.running, this.key] = [[], ""];
  }

  /** Where it is while it runs. */
  #now() {
    const part = this.running[0]?.effect?.getComputedTiming().progress ?? NaN;
    return this.from + part * (1 - this.from);
  }
}
