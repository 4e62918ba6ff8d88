/** Strokes on the screen: SVG over the court, worked out in CSS pixels from centimetres of the floor. */

import { svg } from "../court/court.js";
import { Growing } from "./growing.js";
import { keyOf, seen } from "./model.js";
import { shape } from "./shape.js";
import { sayStrokes } from "../words/ink-words.js";

/**
 * @typedef {import("./model.js").Stroke} Stroke
 * @typedef {import("./model.js").Page} Page
 * @typedef {import("../court/projection.js").Projection} Projection
 */

const FADE = 450;

export class InkLayer {
  /** @param {Element} below  the layer that ink lies over */
  constructor(below) {
    this.root = svg("svg", { class: "ink", role: "img" });
    this.dry = svg("g");
    this.wet = svg("g", { class: "wet" });
    this.root.append(this.dry, this.wet);
    below.after(this.root);
    /** @type {Projection | null} */
    this.projection = null;
    this.key = "";
    /** By the stroke's id. @type {Map<string, {stroke: Stroke, element: SVGElement}>} */
    this.shown = new Map();
    /** @type {Map<string, Growing>} */
    this.growing = new Map();
  }

  /**
   * Show a page, fading the one before if it is another step's.
   * @param {import("./model.js").Place} place
   * @param {Page | null} page
   * @param {Projection} projection
   */
  show(place, page, projection) {
    const key = keyOf(place);
    const moved = projection !== this.projection;
    if (moved) {
      this.projection = projection;
      this.root.setAttribute("viewBox", `0 0 ${projection.width} ${projection.height}`);
      this.shown.clear();
      this.dry.replaceChildren();
    }
    if (key !== this.key) {
      this.key = key;
      if (this.shown.size) this.#leave();
      for (const { element } of this.growing.values()) element.remove();
      this.growing.clear();
    }
    const strokes = seen(page);
    const ids = new Set(strokes.map(({ id }) => id));
    for (const [id, { element }] of this.shown) {
      if (ids.has(id)) continue;
      element.remove();
      this.shown.delete(id);
    }
    for (const stroke of strokes) {
      if (this.shown.has(stroke.id)) continue;
      const element = shape(stroke, projection);
      this.shown.set(stroke.id, { stroke, element });
      this.dry.append(element);
    }
    const count = String(strokes.length);
    if (this.root.getAttribute("data-strokes") === count) return;
    this.root.setAttribute("aria-label", sayStrokes(strokes.length));
    this.root.setAttribute("data-strokes", count);
  }

  /** Draw a stroke that is growing, or take it away. @param {string} id @param {Stroke | null} stroke */
  grow(id, stroke) {
    const { projection } = this;
    const before = this.growing.get(id);
    if (stroke && before && before.projection === projection) return before.draw(stroke);
    before?.element.remove();
    this.growing.delete(id);
    if (!stroke || !projection) return;
    const growing = new Growing(stroke, projection);
    this.growing.set(id, growing);
    this.wet.append(growing.element);
  }

  #leave() {
    const old = this.dry;
    this.dry = svg("g");
    old.after(this.dry);
    this.shown = new Map();
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) return old.remove();
    const fade = old.animate([{ opacity: 1 }, { opacity: 0 }], { duration: FADE, fill: "forwards" });
    fade.onfinish = fade.oncancel = () => old.remove();
  }
}
