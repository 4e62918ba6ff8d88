/** Routes: SVG path data measured by length, and the speed profile players run them with. No DOM. */

import { RAMP } from "./figures.js";

/** @typedef {import("../state/wire.js").Point} Point */

/**
 * A path flattened to short straight pieces, with the length run at each joint.
 * @typedef {object} Route
 * @property {Float64Array} x  centimetres
 * @property {Float64Array} y  centimetres
 * @property {Float64Array} run  centimetres from the beginning
 * @property {number} length  centimetres
 */

/** Straight pieces a curve is cut into: within 2 mm of the curve on any half court. */
const PIECES = 24;
const KEPT = 4000;

/** @type {Map<string, Route>} */
const known = new Map();

/**
 * Read path data made of absolute M, L and C commands.
 * @param {string} data
 * @returns {Route}
 */
export function route(data) {
  const found = known.get(data);
  if (found) return found;
  const made = measure(flatten(data));
  if (known.size >= KEPT) known.clear();
  known.set(data, made);
  return made;
}

/**
 * @param {string} data
 * @returns {Point[]}
 */
function flatten(data) {
  const tokens = data.match(/[A-Za-z]|-?\d*\.?\d+/g) ?? [];
  /** @type {Point[]} */
  const points = [];
  let command = "M";
  let i = 0;
  const take = () => Number(tokens[i++]);
  while (i < tokens.length) {
    if (/[A-Za-z]/.test(tokens[i])) command = tokens[i++];
    if (command === "C") {
      const [x0, y0] = points[points.length - 1];
      const [x1, y1, x2, y2, x3, y3] = [take(), take(), take(), take(), take(), take()];
      for (let k = 1; k <= PIECES; k++) {
        const u = k / PIECES;
        const v = 1 - u;
        const [a, b, c, d] = [v * v * v, 3 * v * v * u, 3 * v * u * u, u * u * u];
        points.push([a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3]);
      }
    } else if (command === "M" || command === "L") {
      points.push([take(), take()]);
    } else {
      break;
    }
  }
  return points.length ? points : [[0, 0]];
}

/**
 * @param {Point[]} points
 * @returns {Route}
 */
function measure(points) {
  const n = points.length;
  const made = { x: new Float64Array(n), y: new Float64Array(n), run: new Float64Array(n), length: 0 };
  for (let i = 0; i < n; i++) {
    [made.x[i], made.y[i]] = points[i];
    if (i) made.length += Math.hypot(made.x[i] - made.x[i - 1], made.y[i] - made.y[i - 1]);
    made.run[i] = made.length;
  }
  return made;
}

/**
 * Where a route is after so many centimetres.
 * @param {Route} path
 * @param {number} distance
 * @returns {Point}
 */
export function pointAt(path, distance) {
  const { x, y, run } = path;
  const last = x.length - 1;
  if (distance <= 0 || !last) return [x[0], y[0]];
  if (distance >= path.length) return [x[last], y[last]];
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (run[middle] <= distance) low = middle;
    else high = middle;
  }
  const piece = run[high] - run[low];
  const u = piece ? (distance - run[low]) / piece : 0;
  return [x[low] + (x[high] - x[low]) * u, y[low] + (y[high] - y[low]) * u];
}

/**
 * Share of the way that is behind a runner after a share `u` of his time (speed up, steady, slow down).
 * @param {number} u
 */
export function progress(u) {
  if (u <= 0) return 0;
  if (u >= 1) return 1;
  const peak = 1 / (1 - RAMP);
  if (u < RAMP) return (peak * u * u) / (2 * RAMP);
  if (u > 1 - RAMP) return 1 - (peak * (1 - u) * (1 - u)) / (2 * RAMP);
  return peak * (u - RAMP / 2);
}

/**
 * The share of his time after which a share `way` of the way is behind him: `progress` the other way round.
 * @param {number} way
 */
export function timeFor(way) {
  if (way <= 0) return 0;
  if (way >= 1) return 1;
  const peak = 1 / (1 - RAMP);
  const ramp = (peak * RAMP) / 2;
  if (way < ramp) return Math.sqrt((way * 2 * RAMP) / peak);
  if (way > 1 - ramp) return 1 - Math.sqrt(((1 - way) * 2 * RAMP) / peak);
  return way / peak + RAMP / 2;
}
