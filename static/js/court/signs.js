/** The signs of the targets: each a small drawing in the trade's notation on a button. */

import { sayBoard } from "../words/board-words.js";
import { svg } from "./court.js";
import { arrow, handOff, screenLine, trim, wavyArrow } from "./notation.js";

/**
 * @typedef {import("./targets.js").Target} Target
 * @typedef {import("../state/wire.js").Point} Point
 */

/**
 * @param {Target} target
 * @param {number} radius  of a disc, CSS pixels: small screens get smaller signs
 * @param {string} label  the whole sentence
 * @param {(player: number) => string} face  his number
 * @param {boolean} isNext  the open play goes on with it
 * @returns {HTMLButtonElement}
 */
export function makeTarget(target, radius, label, face, isNext) {
  const button = document.createElement("button");
  button.type = "button";
  button.tabIndex = -1; // the list beside the court is the way in for keys
  button.className = `target sign-${target.sign}${target.offer.default ? " default" : ""}${isNext ? " next" : ""}`;
  button.dataset.act = target.offer.a.join(" ");
  button.setAttribute("aria-label", label);
  button.style.width = button.style.height = `${target.side}px`;
  button.style.transform = `translate(${target.at[0] - target.side / 2}px, ${target.at[1] - target.side / 2}px)`;
  const half = target.side / 2;
  const drawing = svg("svg", { viewBox: `${-half} ${-half} ${target.side} ${target.side}`, "aria-hidden": "true" });
  drawing.append(...draw(target, radius, target.number === null ? "" : face(target.number)));
  if (isNext) button.append(nextMark());
  if (isNext) button.title = sayBoard("next_in_play");
  button.append(drawing);
  return button;
}

/** What an open play goes on with, wherever it is tapped: a small solid play sign. */
export function nextMark() {
  const mark = svg("svg", { viewBox: "0 0 16 16", class: "next-mark", "aria-hidden": "true" });
  mark.append(svg("circle", { cx: 8, cy: 8, r: 8 }), svg("path", { d: "M6 4.2v7.6L12 8z" }));
  return mark;
}

/** @param {Target} target @param {number} radius @param {string} number */
function draw(target, radius, number) {
  const { sign, along } = target;
  const small = Math.max(0.7, Math.min(target.side / 48, radius / 33));
  const plate = svg("circle", { class: "plate", r: 21 * small });
  const line = (/** @type {number} */ back, /** @type {number} */ front) =>
    trim([[along[0] * -back * small, along[1] * -back * small], [along[0] * front * small, along[1] * front * small]], 0, 0);
  switch (sign) {
    case "drive":
      return [svg("circle", { class: "plate bare", r: 27 * small }), ...wavyArrow(line(30, 30), 1.3 * small)];
    case "dribble":
      return [plate, ...wavyArrow(line(17, 17), Math.max(0.58, 0.72 * small))];
    case "hand":
      return [plate, svg("path", { class: "stroke", d: straight(line(16, 16)) }), ...handOff([0, 0], along, 0.86 * small)];
    case "cut":
      return [plate, ...arrow(curve(along, 16 * small), 0.72 * small)];
    case "screen":
      return target.forBall ? forBall(along, number, small) : [plate, ...numbered(along, number, small)];
    case "shot":
      return [svg("circle", { class: "hoop", r: 15 * small }), svg("circle", { class: "hoop inner", r: 5 * small })];
    default: {
      const ring = svg("circle", { class: "empty", r: sign === "post" ? radius * 0.62 : radius * 0.86 });
      const digit = svg("text", { class: "digit", "font-size": radius * (number.length > 1 ? 0.92 : 1.1) });
      digit.textContent = number;
      return target.wavy ? [ring, ...wavyArrow(line(19, 19), Math.max(0.62, 0.8 * small))] : [ring, digit];
    }
  }
}

/**
 * Who sets the screen, and the bar he sets ahead of him.
 * @param {Point} along @param {string} number @param {number} small
 */
function numbered([dx, dy], number, small) {
  const digit = svg("text", { class: "digit", "font-size": (number.length > 1 ? 15 : 18) * small, x: -dx * 8 * small, y: -dy * 8 * small });
  digit.textContent = number;
  const at = (/** @type {number} */ by) => /** @type {Point} */ ([dx * by * small, dy * by * small]);
  return [digit, ...screenLine(trim([at(4), at(12)], 0, 0), 0.8 * small)];
}

/**
 * A screen for the ball is never taken for one for a mate: a square plate, and the ball comes round the bar.
 * @param {Point} along @param {string} number @param {number} small
 */
function forBall([dx, dy], number, small) {
  const half = 21 * small;
  const at = (/** @type {number} */ by, /** @type {number} */ aside) => /** @type {Point} */ ([(dx * by - dy * aside) * small, (dy * by + dx * aside) * small]);
  const [x, y] = at(15, -2);
  const plate = svg("rect", { class: "plate", x: -half, y: -half, width: half * 2, height: half * 2, rx: 6 * small });
  const digit = svg("text", { class: "digit", "font-size": (number.length > 1 ? 14 : 17) * small, x: -dx * 10 * small, y: -dy * 10 * small });
  digit.textContent = number;
  return [plate, digit, ...screenLine(trim([at(-2, 0), at(5, 0)], 0, 0), 0.8 * small), svg("circle", { class: "head", cx: x, cy: y, r: 4.6 * small })];
}

/** @param {Point[]} points */
function straight(points) {
  const [a, b] = [points[0], points[points.length - 1]];
  return `M${a[0]} ${a[1]}L${b[0]} ${b[1]}`;
}

/** A bow that ends in the direction `along`. @param {Point} along @param {number} reach @returns {Point[]} */
function curve([dx, dy], reach) {
  /** @type {Point[]} */
  const points = [];
  for (let i = 0; i <= 16; i++) {
    const u = i / 8 - 1;
    const side = reach * 0.42 * (1 - u * u) - reach * 0.2;
    points.push([dx * u * reach - dy * side, dy * u * reach + dx * side]);
  }
  return trim(points, 0, 0);
}
