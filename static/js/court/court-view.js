/** The court on the screen: floor, trails, targets and players, fitted to its space. */

import { makeActors } from "./actors.js";
import { drawCourt, svg } from "./court.js";
import { project } from "./projection.js";
import { makeTarget } from "./signs.js";
import { drawTrails } from "./trails.js";

/**
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").Offer} Offer
 * @typedef {import("./targets.js").Target} Target
 * @typedef {import("./projection.js").View} View
 * @typedef {import("./projection.js").Projection} Projection
 * @typedef {import("../steps/film.js").Film} Film
 */

export class CourtView {
  /** @param {HTMLElement} root  an empty element that fills the court's space */
  constructor(root) {
    this.root = root;
    this.floorLayer = svg("svg", { class: "floor", "aria-hidden": "true" });
    this.trailLayer = svg("svg", { class: "trails", "aria-hidden": "true" });
    this.aimLayer = svg("svg", { class: "aim", "aria-hidden": "true" });
    this.targetLayer = document.createElement("div");
    this.targetLayer.className = "targets";
    this.actorLayer = document.createElement("div");
    this.actorLayer.className = "actors";
    const extraLayer = document.createElement("div");
    extraLayer.className = "actors";
    root.prepend(this.floorLayer, this.trailLayer, extraLayer, this.targetLayer, this.aimLayer, this.actorLayer);
    this.actors = makeActors(this.actorLayer, [1, 2, 3, 4, 5], extraLayer);
    /** @type {Projection | null} */
    this.projection = null;
    /** @type {Target[]} */
    this.targets = [];
    this.drawn = "";
    /** @type {import("../steps/film.js").Cue | undefined} of the step whose trails are drawn */
    this.cue = undefined;
    this.wide = false; // somebody stands outside the lines
  }

  /**
   * Fit the floor to the space there is.
   * @param {Floor} floor
   * @param {View} view
   * @returns {Projection}
   */
  fit(floor, view) {
    const { clientWidth, clientHeight } = this.root;
    const projection = project(clientWidth, clientHeight, floor.box, { ...view, wide: this.wide });
    this.projection = projection;
    this.drawn = "";
    this.root.style.setProperty("--r", `${projection.radius}px`);
    this.root.classList.toggle("turned", view.turned);
    this.root.classList.toggle("wide", this.wide);
    drawCourt(this.floorLayer, floor, projection);
    this.aimLayer.setAttribute("viewBox", `0 0 ${clientWidth} ${clientHeight}`);
    return projection;
  }

  /**
   * @param {Film} film
   * @param {number} index  of the step, -1 for none
   */
  trails(film, index) {
    if (!this.projection) return;
    const [key, cue] = [String(index), film.cues[index]];
    if (key === this.drawn && cue === this.cue) return;
    [this.drawn, this.cue] = [key, cue];
    drawTrails(this.trailLayer, film, index, this.projection);
  }

  /**
   * Show targets, replacing those before.
   * @param {Target[]} targets
   * @param {(offer: Offer) => string} label
   * @param {(player: number) => string} face
   * @param {(offer: Offer) => boolean} [isNext]  the open play goes on with it
   */
  offer(targets, label, face, isNext = () => false) {
    this.targets = targets;
    const radius = this.projection?.radius ?? 24;
    this.targetLayer.replaceChildren(...targets.map((target) => makeTarget(target, radius, label(target.offer), face, isNext(target.offer))));
  }

  /**
   * Draw a drag: from a disc towards the target it would choose.
   * @param {Point | null} from  CSS pixels
   * @param {Point} [to]
   * @param {Element | null} [chosen]
   */
  aim(from, to, chosen) {
    this.root.querySelectorAll(".aimed").forEach((each) => each.classList.remove("aimed"));
    chosen?.classList.add("aimed");
    this.aimLayer.replaceChildren(
      ...(from && to ? [svg("path", { d: `M${from[0]} ${from[1]}L${to[0]} ${to[1]}`, class: chosen ? "sure" : "" })] : []),
    );
  }
}
