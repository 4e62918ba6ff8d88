/** What a pen or a highlighter leaves, as outlines in CSS pixels; and the sheets a stroke is laid on. */

import { getStroke } from "../../vendor/perfect-freehand/perfect-freehand.js";
import { svg } from "../court.js";
import { EVEN } from "./model.js";

/**
 * @typedef {import("./model.js").InkPoint} InkPoint
 * @typedef {import("../projection.js").Projection} Projection
 * @typedef {import("../wire.js").Point} Point
 */

/** Widths, centimetres of the floor, and the least of them on a screen, CSS pixels. */
const SIZES = { pen: [12, 4.5], marker: [46, 16] };
/** Points of a line this far from each other feed the pen, CSS pixels. */
const FEED = 7;

/**
 * What a stroke is made of, from below: its edge, if it has one, itself, and a light middle, if it has one.
 * @param {string} name  of the tool
 * @param {string} look  of the colour
 */
export function sheets(name, look) {
  // What lies on players is seen as well: an edge, in the floor's colour where none is meant.
  const under = look === "edge" || name !== "marker" ? svg("g", { class: look === "edge" ? "edge" : "rim" }) : null;
  const body = svg("g", { class: "body" });
  const middle = look === "seam" ? svg("g", { class: "seam" }) : null;
  const layers = [under, body, middle].filter((layer) => layer !== null);
  return { group: svg("g", { class: `ink-${name} ink-${look}` }, layers), under, body, middle };
}

/** Whether a line's width says how hard it was pressed. @param {"pen" | "marker"} name @param {InkPoint[]} points */
export const isPressed = (name, points) => name === "pen" && points.some(([, , p]) => p !== EVEN);

/**
 * The outline of a line, as path data.
 * @param {"pen" | "marker"} name
 * @param {InkPoint[]} points
 * @param {Point[]} px  the same on the screen
 * @param {Projection} projection
 * @param {boolean} pressed
 */
export function outline(name, points, px, projection, pressed) {
  const [wide, least] = SIZES[name];
  const size = Math.max(least, wide * projection.scale);
  const fed = px.flatMap((to, i) => between(px[i - 1], to, points[i - 1]?.[2], points[i][2]));
  return closed(getStroke(fed, {
    size: pressed ? size * 1.25 : size, thinning: pressed ? 0.6 : 0, smoothing: 0.5, streamline: 0.35, simulatePressure: false, last: true,
  }));
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

/** Tenths of a pixel as texts, each made once: those of a stroke that grows are asked for in every frame. @type {string[]} */
const TENTHS = new Array(20_480);

/** Tenths are enough. @param {number} value */
function tenths(value) {
  const at = Math.round(value * 10);
  return at >= 0 && at < TENTHS.length ? (TENTHS[at] ??= String(at / 10)) : String(at / 10);
}

/** An outline as path data, through the middles of its sides. @param {number[][]} points */
function closed(points) {
  if (!points.length) return "";
  let [x0, y0] = points[points.length - 1];
  let data = `M${tenths((x0 + points[0][0]) / 2)} ${tenths((y0 + points[0][1]) / 2)}`;
  [x0, y0] = points[0];
  for (let i = 1; i <= points.length; i++) {
    const [x, y] = points[i % points.length];
    data += `Q${tenths(x0)} ${tenths(y0)} ${tenths((x0 + x) / 2)} ${tenths((y0 + y) / 2)}`;
    [x0, y0] = [x, y];
  }
  return `${data}Z`;
}
