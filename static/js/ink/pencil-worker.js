/**
 * The stroke under this device's own pencil, drawn by a worker on a canvas over the ink: the page, which has players
 * to move, lays out and paints nothing for it. What it looks like once it is done, it looks like while it grows.
 *
 * @typedef {object} Coat  one of the layers a stroke is laid on, as the styles have it
 * @property {string} fill  "none": only its line
 * @property {string} stroke
 * @property {number} width  CSS pixels of the line, 0: only filled
 * @property {number} alpha  of 1
 *
 * @typedef {object} Told  what the page says, all of it optional but the points
 * @property {OffscreenCanvas} [canvas]  once
 * @property {{name: "pen" | "marker", scale: number, pressed: boolean, coats: Coat[], width: number, height: number, ratio: number} | null} [begin]
 *   a stroke; null: nothing any more
 * @property {import("./pen.js").Dot[]} more
 */

import { outline } from "./pen.js";

/** @type {OffscreenCanvasRenderingContext2D | null} */
let sheet = null;
/** @type {Told["begin"]} */
let stroke = null;
/** @type {import("./pen.js").Dot[]} */
let dots = [];
let asked = false;

addEventListener("message", ({ data }) => {
  const { canvas, begin, more } = /** @type {Told} */ (data);
  if (canvas) {
    sheet = canvas.getContext("2d");
    // Once it is seen that frames come.
    if (sheet) requestAnimationFrame(() => postMessage("ready"));
  }
  if (begin !== undefined) [stroke, dots] = [begin, []];
  dots.push(...more);
  if (asked) return;
  asked = true;
  requestAnimationFrame(draw);
});

function draw() {
  asked = false;
  if (!sheet) return;
  const { canvas } = sheet;
  if (stroke) {
    const [width, height] = [Math.round(stroke.width * stroke.ratio), Math.round(stroke.height * stroke.ratio)];
    if (canvas.width !== width || canvas.height !== height) Object.assign(canvas, { width, height });
  }
  sheet.setTransform(1, 0, 0, 1, 0, 0);
  sheet.clearRect(0, 0, canvas.width, canvas.height);
  if (!stroke) return;
  const { name, scale, pressed, coats, ratio } = stroke;
  sheet.setTransform(ratio, 0, 0, ratio, 0, 0);
  const filled = new Path2D(outline(name, dots, scale, pressed));
  const middle = new Path2D();
  for (const [x, y] of dots) middle.lineTo(x, y);
  sheet.lineCap = sheet.lineJoin = "round";
  for (const { fill, stroke: line, width, alpha } of coats) {
    sheet.globalAlpha = alpha;
    sheet.fillStyle = fill;
    sheet.strokeStyle = line;
    sheet.lineWidth = width;
    if (fill !== "none") sheet.fill(filled);
    if (width) sheet.stroke(fill === "none" ? middle : filled);
  }
}
