/**
 * A stroke under way. A line is drawn in pieces: only the last grows, those before it stay as they are, so that a
 * long stroke takes no more of a frame than a short one. Once it is done it is drawn whole.
 */

import { svg } from "../court/court.js";
import { data } from "../court/notation.js";
import { layersOf } from "./layers.js";
import { COLOURS, TOOLS } from "./model.js";
import { dots, isPressed, outline } from "./pen.js";
import { shape } from "./shape.js";

/**
 * @typedef {import("./model.js").Stroke} Stroke
 * @typedef {import("../court/projection.js").Projection} Projection
 */

/** Points of a piece. */
const PIECE = 24;
/** Points that a piece has in common with the one before: after so many a pen begun anew is where the old one is. */
const COMMON = 6;

export class Growing {
  /** @param {Stroke} stroke @param {Projection} projection */
  constructor(stroke, projection) {
    this.projection = projection;
    this.layers = layersOf(TOOLS[stroke.tool], COLOURS[stroke.colour]);
    this.element = this.layers.group;
    /** Pieces that grow no more. */
    this.rest = svg("g");
    this.layers.body.before(this.rest);
    this.from = 0;
    this.pressed = false;
    /** The piece that grows: of its edge, of itself, of its middle. @type {SVGElement[]} */
    this.last = [];
    this.draw(stroke);
  }

  /** Draw what there is now. @param {Stroke} stroke */
  draw(stroke) {
    const name = TOOLS[stroke.tool];
    if (name !== "pen" && name !== "marker") {
      // An arrow's head and its dashes move with its end: all of it is drawn anew.
      this.element.replaceChildren(...shape(stroke, this.projection).children);
      return;
    }
    const { points } = stroke;
    const pressed = isPressed(name, points);
    if (pressed !== this.pressed || points.length < this.from) this.#again(pressed);
    while (points.length - this.from > PIECE) {
      this.#piece(name, points.slice(this.from, this.from + PIECE));
      this.rest.append(...this.layers.body.children);
      this.last = [];
      this.from += PIECE - COMMON;
    }
    this.#piece(name, points.slice(this.from));
  }

  /** @param {boolean} pressed */
  #again(pressed) {
    const { under, body, middle } = this.layers;
    for (const layer of [under, this.rest, body, middle]) layer?.replaceChildren();
    [this.from, this.pressed, this.last] = [0, pressed, []];
  }

  /** @param {"pen" | "marker"} name @param {import("./model.js").InkPoint[]} points */
  #piece(name, points) {
    const { under, body, middle } = this.layers;
    const line = dots(points, this.projection);
    const d = outline(name, line, this.projection.scale, this.pressed);
    if (!this.last.length) {
      for (const layer of [under, body]) {
        if (!layer) continue;
        const path = svg("path", { class: "fill" });
        layer.append(path);
        this.last.push(path);
      }
      if (middle) {
        const line = svg("path", { class: "stroke cut" });
        middle.append(line);
        this.last.push(line);
      }
    }
    for (const path of this.last) path.setAttribute("d", path.parentNode === middle ? data(line) : d);
  }
}
