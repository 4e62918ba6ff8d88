/** Strokes on the screen: SVG over the court, worked out in CSS pixels from centimetres of the floor. */

import { getStroke } from "../../vendor/perfect-freehand/perfect-freehand.js";
import { svg } from "../court.js";
import { arrow, handOff, plainLine, screenLine, trim, wavyArrow } from "../notation.js";
import { COLOURS, EVEN, keyOf, seen, TOOLS } from "./model.js";
import { W } from "./words.js";

/**
 * @typedef {import("./model.js").Stroke} Stroke
 * @typedef {import("./model.js").Page} Page
 * @typedef {import("../projection.js").Projection} Projection
 * @typedef {import("../wire.js").Point} Point
 */

/** Widths, centimetres of the floor, and the least of them on a screen, CSS pixels. */
const SIZES = { pen: [12, 4.5], marker: [46, 16] };
/** A shorter stroke of an arrow is no arrow, CSS pixels. */
const SHORT = 14;
/** Points of a line this far from each other feed the pen, CSS pixels. */
const FEED = 7;
/** Even steps to each side over which an arrow is made smooth. */
const SMOOTH = 5;
const FADE = 450;

export class InkLayer {
  /** @param {Element} below  the layer that ink lies over */
  constructor(below) {
    this.root = svg("svg", { class: "ink", role: "img" });
    this.dry = svg("g");
    this.wet = svg("g");
    this.root.append(this.dry, this.wet);
    below.after(this.root);
    /** @type {Projection | null} */
    this.projection = null;
    this.key = "";
    /** By the stroke's id. @type {Map<string, {stroke: Stroke, element: SVGElement}>} */
    this.shown = new Map();
    /** @type {Map<string, SVGElement>} */
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
      for (const element of this.growing.values()) element.remove();
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
    this.root.toggleAttribute("hidden", false);
    this.root.setAttribute("aria-label", W.strokes(strokes.length));
    this.root.setAttribute("data-strokes", String(strokes.length));
  }

  /** Draw a stroke that is growing, or take it away. @param {string} id @param {Stroke | null} stroke */
  grow(id, stroke) {
    this.growing.get(id)?.remove();
    this.growing.delete(id);
    if (!stroke || !this.projection) return;
    const element = shape(stroke, this.projection);
    this.growing.set(id, element);
    this.wet.append(element);
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

/** @param {Stroke} stroke @param {Projection} projection */
export function shape({ tool, colour, points }, projection) {
  const name = TOOLS[tool];
  const look = COLOURS[colour];
  const px = points.map(([x, y]) => projection.px([x, y]));
  const size = Math.max(0.62, projection.radius / 33);
  const parts = () => (name === "pen" || name === "marker" ? lineOf(name, points, px, projection) : arrowOf(name, px, size));
  const group = svg("g", { class: `ink-${name} ink-${look}` });
  // What lies on players is seen as well: an edge, in the floor's colour where none is meant.
  if (look === "edge" || name !== "marker") group.append(svg("g", { class: look === "edge" ? "edge" : "rim" }, parts()));
  group.append(svg("g", { class: "body" }, parts()));
  if (look === "seam") group.append(svg("g", { class: "seam" }, name === "pen" || name === "marker" ? plainLine(px) : seam(parts())));
  return group;
}

/** The middle of an arrow's lines; its head is whole. @param {SVGElement[]} parts */
const seam = (parts) => parts.filter((part) => part.classList.contains("stroke"));

/**
 * @param {"pen" | "marker"} name
 * @param {import("./model.js").InkPoint[]} points
 * @param {Point[]} px
 * @param {Projection} projection
 */
function lineOf(name, points, px, projection) {
  const [wide, least] = SIZES[name];
  const size = Math.max(least, wide * projection.scale);
  const pressed = name === "pen" && points.some(([, , p]) => p !== EVEN);
  const fed = px.flatMap((to, i) => between(px[i - 1], to, points[i - 1]?.[2], points[i][2]));
  const outline = getStroke(fed, {
    size: pressed ? size * 1.25 : size, thinning: pressed ? 0.6 : 0, smoothing: 0.5, streamline: 0.35, simulatePressure: false, last: true,
  });
  return [svg("path", { class: "fill", d: closed(outline) })];
}

/** @param {Point | undefined} from @param {Point} to @param {number | undefined} before @param {number} pressure */
function between(from, to, before, pressure) {
  if (!from) return [[to[0], to[1], pressure / 100]];
  const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / FEED));
  return Array.from({ length: count }, (_, i) => {
    const u = (i + 1) / count;
    const p = (before ?? pressure) + (pressure - (before ?? pressure)) * u;
    return [from[0] + (to[0] - from[0]) * u, from[1] + (to[1] - from[1]) * u, p / 100];
  });
}

/** An outline as path data, through the middles of its sides. @param {number[][]} outline */
function closed(outline) {
  if (!outline.length) return "";
  const at = (/** @type {number} */ i) => outline[i % outline.length];
  const said = (/** @type {number} */ value) => value.toFixed(1);
  const half = (/** @type {number[]} */ a, /** @type {number[]} */ b) => `${said((a[0] + b[0]) / 2)} ${said((a[1] + b[1]) / 2)}`;
  const curves = outline.map(([x, y], i) => `Q${said(x)} ${said(y)} ${half([x, y], at(i + 1))}`);
  return `M${half(at(outline.length - 1), at(0))}${curves.join("")}Z`;
}

/**
 * @param {"cut" | "pass" | "dribble" | "screen" | "hand"} name
 * @param {Point[]} px
 * @param {number} size
 */
function arrowOf(name, px, size) {
  const points = smooth(trim(px, 0, 0));
  const long = points.length > 1 && lengthOf(points) > SHORT * size;
  if (name === "hand") {
    const end = px[px.length - 1];
    const from = points[Math.max(0, points.length - 8)] ?? end;
    const far = Math.hypot(end[0] - from[0], end[1] - from[1]);
    /** @type {Point} */
    const along = far > 2 ? [(end[0] - from[0]) / far, (end[1] - from[1]) / far] : [1, 0];
    return [...(long ? plainLine(points) : []), ...handOff(end, along, size)];
  }
  // Too short for what it means: seen all the same, as a dash.
  if (!long) return plainLine([px[0], [px[px.length - 1][0] + 0.1, px[px.length - 1][1]]]);
  if (name === "dribble") return wavyArrow(points, size);
  if (name === "screen") return screenLine(points, size);
  return arrow(points, size, name);
}

/** @param {Point[]} points */
function lengthOf(points) {
  return points.reduce((sum, [x, y], i) => sum + (i ? Math.hypot(x - points[i - 1][0], y - points[i - 1][1]) : 0), 0);
}

/** A shaking hand's line made calm; its ends stay. @param {Point[]} points @returns {Point[]} */
function smooth(points) {
  return points.map((_, i) => {
    const reach = Math.min(SMOOTH, i, points.length - 1 - i);
    let [x, y] = [0, 0];
    for (let k = i - reach; k <= i + reach; k++) [x, y] = [x + points[k][0], y + points[k][1]];
    return [x / (2 * reach + 1), y / (2 * reach + 1)];
  });
}
