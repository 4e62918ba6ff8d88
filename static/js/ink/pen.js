/** What a pen or a highlighter leaves, as outlines in CSS pixels. No DOM: a worker draws with it as well. */

import { getStroke } from "../../vendor/perfect-freehand/perfect-freehand.js";
import { EVEN } from "./model.js";

/**
 * @typedef {import("./model.js").InkPoint} InkPoint
 * @typedef {import("../court/projection.js").Projection} Projection
 * @typedef {[x: number, y: number, pressure: number]} Dot  CSS pixels; pressure 0 to 100
 */

/** Widths, centimetres of the floor, and the least of them on a screen, CSS pixels. */
const SIZES = { pen: [12, 4.5], marker: [46, 16] };
/** Points of a line this far from each other feed the pen, CSS pixels. */
const FEED = 7;

/** Whether a line's width says how hard it was pressed. @param {"pen" | "marker"} name @param {InkPoint[]} points */
export const isPressed = (name, points) => name === "pen" && points.some(([, , p]) => p !== EVEN);

/** Points of a stroke on the screen. @param {InkPoint[]} points @param {Projection} projection @returns {Dot[]} */
export const dots = (points, projection) => points.map(([x, y, pressure]) => [...projection.px([x, y]), pressure]);

/**
 * The outline of a line, as path data.
 * @param {"pen" | "marker"} name
 * @param {Dot[]} line
 * @param {number} scale  CSS pixels a centimetre of the floor
 * @param {boolean} pressed
 */
export function outline(name, line, scale, pressed) {
  const [wide, least] = SIZES[name];
  const size = Math.max(least, wide * scale);
  const fed = line.flatMap((to, i) => between(line[i - 1], to));
  return closed(getStroke(fed, {
    size: pressed ? size * 1.25 : size, thinning: pressed ? 0.6 : 0, smoothing: 0.5, streamline: 0.35, simulatePressure: false, last: true,
  }));
}

/** @param {Dot | undefined} from @param {Dot} to */
function between(from, to) {
  if (!from) return [[to[0], to[1], to[2] / 100]];
  const count = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / FEED));
  return Array.from({ length: count }, (_, i) => {
    const u = (i + 1) / count;
    return [from[0] + (to[0] - from[0]) * u, from[1] + (to[1] - from[1]) * u, (from[2] + (to[2] - from[2]) * u) / 100];
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
