/** The small court beside the words: plays a chain, the last action of it in full, with some players leading. */

import { makeActors } from "../court/actors.js";
import { drawCourt, svg } from "../court/court.js";
import { arrow, trim } from "../court/notation.js";
import { project } from "../court/projection.js";
import { Stage } from "../court/stage.js";
import { drawTrails } from "../court/trails.js";
import { Transport } from "../board/transport.js";
import { make } from "../ui/dom.js";

/** @typedef {import("./team-api.js").ChainPreview} ChainPreview */

/** Speed the small court plays with: a little slower than life, to be read while it moves. */
const RATE = 0.8;

export class SmallCourt {
  constructor() {
    this.floorLayer = svg("svg", { class: "floor", "aria-hidden": "true" });
    this.trailLayer = svg("svg", { class: "trails", "aria-hidden": "true" });
    const actorLayer = make("div", "actors");
    actorLayer.inert = true;
    this.root = make("div", "court small", this.floorLayer, this.trailLayer, actorLayer);
    this.root.setAttribute("role", "img");
    this.actors = makeActors(actorLayer, [1, 2, 3, 4, 5]);
    this.stage = new Stage(this.actors);
    this.transport = new Transport(this.stage, () => this.#changed());
    this.transport.setRate(RATE);
    /** @type {ChainPreview | null} */
    this.shown = null;
    /** @type {number[]} */
    this.leading = [];
    this.still = matchMedia("(prefers-reduced-motion: reduce)");
    this.size = new ResizeObserver(() => this.#fit());
    this.size.observe(this.root);
  }

  /** Show a chain, and play its last step. @param {ChainPreview} preview @param {string} said  for a screen reader */
  show(preview, said) {
    this.stage.still = this.transport.still = this.still.matches;
    this.shown = preview;
    this.leading = preview.last.who ?? [];
    this.root.setAttribute("aria-label", said);
    this.root.classList.add("ready");
    this.root.classList.toggle("led", this.leading.length > 0);
    for (const [player, disc] of Object.entries(this.actors.discs)) {
      disc.classList.toggle("leads", this.leading.includes(Number(player)));
    }
    this.#fit();
    this.transport.load(preview.start, preview.floor.spots, preview.steps);
    this.again();
  }

  /** Play the last step once more. */
  again() {
    const steps = this.shown?.steps.length ?? 0;
    if (steps) this.transport.watch(steps - 1);
    else this.#changed();
  }

  /** Play the whole chain. */
  replay() {
    this.transport.replay();
  }

  /** Where the chain breaks off: the way the ball would have gone. @param {import("../court/projection.js").Projection} projection */
  #refused(projection) {
    const { last, floor, start, steps } = /** @type {ChainPreview} */ (this.shown);
    const to = floor.spots[last.a?.split(":")[1] ?? ""];
    if (!last.failed || !to) return;
    const now = steps[steps.length - 1]?.after ?? start;
    const from = floor.spots[now.at[now.ball]];
    const size = Math.max(0.62, projection.radius / 33);
    const way = trim([projection.px(from), projection.px(to)], projection.radius, projection.radius + 5 * size);
    this.trailLayer.append(svg("g", { class: "trail refused" }, arrow(way, size, "pass")));
  }

  close() {
    this.size.disconnect();
    this.transport.pause();
  }

  #fit() {
    const { clientWidth, clientHeight } = this.root;
    if (!this.shown || !clientWidth || !clientHeight) return;
    const { floor } = this.shown;
    this.projection = project(clientWidth, clientHeight, floor.box, { turned: false, mirrored: false });
    this.root.style.setProperty("--r", `${this.projection.radius}px`);
    drawCourt(this.floorLayer, floor, this.projection);
    this.stage.fit(this.projection);
    this.#changed();
  }

  #changed() {
    const { film, depth, mode } = this.transport;
    this.root.classList.toggle("moving", mode !== "rest");
    if (!film || !this.projection) return;
    drawTrails(this.trailLayer, film, depth - 1, this.projection);
    if (depth === this.transport.steps.length) this.#refused(this.projection);
    for (const player of this.leading) {
      for (const trail of this.trailLayer.querySelectorAll(`[data-of="${player}"]`)) {
        trail.classList.add("leads");
        this.trailLayer.append(trail);
      }
    }
  }
}
