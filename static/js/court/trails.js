/** The trails of one step in the trade's notation, drawn over the floor and under the players. */

import { svg } from "./court.js";
import { where } from "../steps/film.js";
import { arrow, handOff, plainLine, screenLine, trim, wavyArrow } from "./notation.js";
import { pointAt, progress } from "../steps/path.js";
import { inside } from "./projection.js";

/**
 * @typedef {import("../steps/film.js").Film} Film
 * @typedef {import("../steps/film.js").Run} Run
 * @typedef {import("./projection.js").Projection} Projection
 * @typedef {import("../state/wire.js").Point} Point
 */

/** Size of what is drawn for a defender or the coach, as a share of a player's. */
const SLIM = 0.72;

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
  const group = (/** @type {number | string} */ who, /** @type {SVGElement[]} */ parts) => {
    const kind = who in film.shown ? "trail extra-trail" : "trail";
    if (parts.length) drawn.push(svg("g", { class: kind, "data-of": who }, parts));
  };
  const exchange = film.tosses.find((toss) => toss.cue === index && toss.kind === "hand");
  for (const who of [...Object.keys(film.shown), ...film.players]) {
    const runs = film.runs[who].filter((run) => run.cue === index && run.style !== "stray" && run.style !== "guard");
    const slim = who in film.shown ? size * SLIM : size;
    runs.forEach((run, i) => {
      const last = i === runs.length - 1;
      group(who, runTrail(run, exchange?.t0 ?? run.t0, px, last ? off : 0, last, slim));
    });
  }
  for (const toss of film.tosses) {
    if (toss.cue !== index || !toss.from || toss.kind === "stray") continue;
    const a = px(where(film, toss.from, toss.t0));
    const b = px(toss.to ? where(film, toss.to, toss.t1) : (toss.at ?? [0, 0]));
    if (toss.kind === "hand") {
      const given = film.runs[toss.from].find((run) => run.cue === index && run.style === "hand");
      const taken = film.runs[toss.to].find((run) => run.cue === index && run.style === "carry");
      const run = given ?? taken;
      const way = run ? along(samples(run, px)) : towards(a, b);
      group(toss.to, handOff(run ? a : [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], way, size));
    } else {
      group(toss.from, arrow(trim([a, b], projection.radius, toss.to ? off : 14 * size), size, "pass"));
    }
  }
  root.replaceChildren(...drawn);
}

/**
 * @param {Run} run
 * @param {number} handed  when the ball changes hands, film seconds
 * @param {(place: Point) => Point} px
 * @param {number} off  pixels left free at its end
 * @param {boolean} last  of the player's runs in this step
 * @param {number} size
 */
function runTrail(run, handed, px, off, last, size) {
  const points = samples(run, px);
  switch (run.style) {
    case "screen":
      return screenLine(trim(points, 0, last ? off : 4 * size), size);
    case "dribble":
      return wavyArrow(trim(points, 0, off), size, last);
    case "hand":
      return wavyArrow(trim(points, 0, 0), size, false);
    case "carry": {
      // Without the ball until he takes it, with it from there.
      const share = (handed - run.t0) / (run.t1 - run.t0);
      const at = Math.round(Math.max(0, Math.min(1, share)) * (points.length - 1));
      return [
        ...plainLine(at > 1 ? trim(points.slice(0, at + 1), 0, 0) : []),
        ...wavyArrow(at < points.length - 1 ? trim(points.slice(at), 0, off) : [], size),
      ];
    }
    default:
      return last ? arrow(trim(points, 0, off), size) : plainLine(trim(points, 0, 0));
  }
}

/** A run's way on the screen, even in time. @param {Run} run @param {(place: Point) => Point} px */
function samples(run, px) {
  return Array.from({ length: 61 }, (_, i) => px(pointAt(run.path, progress(i / 60) * run.path.length)));
}

/** @param {Point} a @param {Point} b @returns {Point} */
function towards([x0, y0], [x1, y1]) {
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  return [(x1 - x0) / length, (y1 - y0) / length];
}

/** The direction a way ends in. @param {Point[]} points @returns {Point} */
function along(points) {
  return towards(points[points.length - 8], points[points.length - 1]);
}
