/** The trails of one step in the trade's notation, drawn over the floor and under the players. */

import { svg } from "./court.js";
import { where } from "./film.js";
import { arrow, handOff, screenLine, trim, wavyArrow } from "./notation.js";
import { inside } from "./projection.js";

/**
 * @typedef {import("./film.js").Film} Film
 * @typedef {import("./film.js").Run} Run
 * @typedef {import("./projection.js").Projection} Projection
 * @typedef {import("./wire.js").Point} Point
 */

/** Styles that are run with the ball bouncing. */
const WITH_BALL = new Set(["dribble", "carry"]);

/**
 * Draw the trails of step `index` into `root`, replacing what was there; none if there is no such step.
 * @param {SVGElement} root
 * @param {Film} film
 * @param {number} index
 * @param {Projection} projection
 */
export function drawTrails(root, film, index, projection) {
  root.setAttribute("viewBox", `0 0 ${projection.width} ${projection.height}`);
  const size = Math.max(0.62, projection.radius / 33);
  const off = projection.radius + 5 * size;
  const px = (/** @type {Point} */ place) => inside(projection, projection.px(place));
  /** @type {SVGElement[]} */
  const drawn = [];
  const group = (/** @type {number} */ player, /** @type {SVGElement[]} */ parts) => {
    if (parts.length) drawn.push(svg("g", { class: "trail", "data-of": player }, parts));
  };
  for (const player of film.players) {
    const runs = film.runs[player].filter((run) => run.cue === index);
    runs.forEach((run, i) => {
      const last = i === runs.length - 1;
      group(player, runTrail(run, px, last ? off : 0, last, size));
    });
  }
  for (const toss of film.tosses) {
    if (toss.cue !== index) continue;
    const a = px(where(film, toss.from, toss.t0));
    const b = px(toss.to ? where(film, toss.to, toss.t1) : [0, 0]);
    if (toss.kind === "hand") {
      const run = film.runs[toss.to].find((each) => each.cue === index && each.t1 > toss.t0);
      group(toss.to, handOff(a, run ? along(run, toss.t0, film, toss.to, px) : [1, 0], size));
    } else {
      group(toss.from, arrow(trim([a, b], projection.radius, toss.to ? off : 14 * size), size, "pass"));
    }
  }
  root.replaceChildren(...drawn);
}

/**
 * @param {Run} run
 * @param {(place: Point) => Point} px
 * @param {number} off  pixels left free at its end
 * @param {boolean} last  of the player's runs in this step
 * @param {number} size
 */
function runTrail(run, px, off, last, size) {
  /** @type {Point[]} */
  const points = [];
  for (let i = 0; i < run.path.x.length; i++) points.push(px([run.path.x[i], run.path.y[i]]));
  if (run.style === "screen") return screenLine(trim(points, 0, last ? off : 4 * size), size);
  const line = trim(points, 0, off);
  if (WITH_BALL.has(run.style)) return wavyArrow(line, size);
  return arrow(line, size);
}

/**
 * The direction on the screen in which a player runs at time t.
 * @param {Run} run
 * @param {number} t
 * @param {Film} film
 * @param {number} player
 * @param {(place: Point) => Point} px
 * @returns {Point}
 */
function along(run, t, film, player, px) {
  const at = Math.min(run.t1, Math.max(run.t0, t));
  const [x0, y0] = px(where(film, player, Math.max(run.t0, at - 0.1)));
  const [x1, y1] = px(where(film, player, Math.min(run.t1, at + 0.1)));
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  return [(x1 - x0) / length, (y1 - y0) / length];
}
