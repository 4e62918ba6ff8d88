/**
 * The trade's notation as SVG: cut a solid arrow, pass a dashed arrow, dribble a wavy arrow, screen a line
 * with a bar across its end, hand-off two short bars across the line. Works in CSS pixels.
 */

import { svg } from "./court.js";

/** @typedef {import("../state/wire.js").Point} Point */

const WAVE = { length: 17, height: 5 };
const HEAD = { length: 15, half: 7.5 };
const BAR = 13;
/** Pixels between the samples of a curve. */
const STEP = 3;

/** A line through points, as path data. @param {[number, number, ...number[]][]} points */
export function data(points) {
  return points.map(([x, y], i) => `${i ? "L" : "M"}${x.toFixed(1)} ${y.toFixed(1)}`).join("");
}

/**
 * A line resampled to even steps, cut short at both ends.
 * @param {Point[]} points
 * @param {number} head  pixels cut off at the beginning
 * @param {number} tail  pixels cut off at the end
 * @returns {Point[]}
 */
export function trim(points, head, tail) {
  const runs = [0];
  for (let i = 1; i < points.length; i++) {
    runs.push(runs[i - 1] + Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]));
  }
  const end = runs[runs.length - 1] - tail;
  if (end - head < 3) return [];
  /** @type {Point[]} */
  const even = [];
  const count = Math.max(2, Math.ceil((end - head) / STEP));
  let i = 1;
  for (let k = 0; k <= count; k++) {
    const at = head + ((end - head) * k) / count;
    while (i < points.length - 1 && runs[i] < at) i++;
    const piece = runs[i] - runs[i - 1];
    const u = piece ? (at - runs[i - 1]) / piece : 0;
    const [a, b] = [points[i - 1], points[i]];
    even.push([a[0] + (b[0] - a[0]) * u, a[1] + (b[1] - a[1]) * u]);
  }
  return even;
}

/** The direction a line ends in, as a unit vector. @param {Point[]} points @returns {Point} */
function heading(points) {
  const [x1, y1] = points[points.length - 1];
  const [x0, y0] = points[Math.max(0, points.length - 4)];
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  return [(x1 - x0) / length, (y1 - y0) / length];
}

/** An arrowhead whose tip is the line's end. @param {Point[]} points @param {number} size */
function tip(points, size) {
  const [x, y] = points[points.length - 1];
  const [dx, dy] = heading(points);
  const [bx, by] = [x - dx * HEAD.length * size, y - dy * HEAD.length * size];
  const [nx, ny] = [-dy * HEAD.half * size, dx * HEAD.half * size];
  return svg("path", { class: "head", d: `M${x} ${y}L${bx + nx} ${by + ny}L${bx - nx} ${by - ny}Z` });
}

/** @param {Point[]} points @param {number} size */
function shaft(points, size) {
  return points.slice(0, Math.max(2, points.length - Math.round((HEAD.length * size * 0.7) / STEP)));
}

/**
 * @param {Point[]} points  evenly spaced, see `trim`
 * @param {number} size  of heads, waves and bars; 1 on a tablet
 * @param {string} [kind]  class of the line
 */
export function arrow(points, size, kind = "cut") {
  if (points.length < 2) return [];
  return [svg("path", { class: `stroke ${kind}`, d: data(shaft(points, size)) }), tip(points, size)];
}

/** @param {Point[]} points  evenly spaced @param {number} size @param {boolean} [pointed]  with a head */
export function wavyArrow(points, size, pointed = true) {
  if (points.length < 2) return [];
  const body = pointed ? shaft(points, size) : points;
  const flat = Math.round((7 * size) / STEP);
  const waves = body.map((point, i) => {
    const room = Math.min(1, i / 3, Math.max(0, body.length - 1 - flat - i) / 3);
    const [a, b] = [body[Math.max(0, i - 1)], body[Math.min(body.length - 1, i + 1)]];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const off = Math.sin((i * STEP * 2 * Math.PI) / (WAVE.length * size)) * WAVE.height * size * room;
    return /** @type {Point} */ ([point[0] - ((b[1] - a[1]) / length) * off, point[1] + ((b[0] - a[0]) / length) * off]);
  });
  const line = svg("path", { class: "stroke dribble", d: data(waves) });
  return pointed ? [line, tip(points, size)] : [line];
}

/** A plain line, no head. @param {Point[]} points */
export function plainLine(points) {
  return points.length < 2 ? [] : [svg("path", { class: "stroke cut", d: data(points) })];
}

/** A line that ends in a bar across. @param {Point[]} points @param {number} size */
export function screenLine(points, size) {
  if (points.length < 2) return [];
  const [x, y] = points[points.length - 1];
  return [svg("path", { class: "stroke cut", d: data(points) }), bar([x, y], heading(points), size, "bar")];
}

/** Two short bars across a line. @param {Point} at @param {Point} along  unit vector @param {number} size */
export function handOff([x, y], [dx, dy], size) {
  const gap = 3.6 * size;
  return [
    bar([x - dx * gap, y - dy * gap], [dx, dy], size * 0.8, "bar"),
    bar([x + dx * gap, y + dy * gap], [dx, dy], size * 0.8, "bar"),
  ];
}

/** @param {Point} at @param {Point} along @param {number} size @param {string} kind */
function bar([x, y], [dx, dy], size, kind) {
  const [nx, ny] = [-dy * BAR * size, dx * BAR * size];
  return svg("path", { class: `stroke ${kind}`, d: `M${x - nx} ${y - ny}L${x + nx} ${y + ny}` });
}
