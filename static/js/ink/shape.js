/** A stroke that is done, whole: a line as its outline, an arrow in the trade's notation. */

import { svg } from "../court/court.js";
import { arrow, handOff, plainLine, screenLine, trim, wavyArrow } from "../court/notation.js";
import { layersOf } from "./layers.js";
import { COLOURS, TOOLS } from "./model.js";
import { dots, isPressed, outline } from "./pen.js";

/**
 * @typedef {import("./model.js").Stroke} Stroke
 * @typedef {import("../court/projection.js").Projection} Projection
 * @typedef {import("../state/wire.js").Point} Point
 */

/** A shorter stroke of an arrow is no arrow, CSS pixels. */
const SHORT = 14;
/** Even steps to each side over which an arrow is made smooth. */
const SMOOTH = 5;

/** @param {Stroke} stroke @param {Projection} projection */
export function shape({ tool, colour, points }, projection) {
  const name = TOOLS[tool];
  const { group, under, body, middle } = layersOf(name, COLOURS[colour]);
  const px = points.map(([x, y]) => projection.px([x, y]));
  const line = name === "pen" || name === "marker";
  const parts = line ? [svg("path", { class: "fill", d: outline(name, dots(points, projection), projection.scale, isPressed(name, points)) })]
    : arrowOf(name, px, Math.max(0.62, projection.radius / 33));
  middle?.append(...(line ? plainLine(px) : copied(parts.filter((part) => part.classList.contains("stroke"))))); // a head is whole
  under?.append(...copied(parts));
  body.append(...parts);
  return group;
}

/** @param {SVGElement[]} parts */
const copied = (parts) => parts.map((part) => part.cloneNode(true));

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
