/** What is drawn on the floor while somebody draws: free spots, where everybody began, and where a drag leads. */

import { svg } from "../court/court.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../court/projection.js").Projection} Projection
 *
 * @typedef {object} Shown  places in centimetres
 * @property {Point[]} spots  free ones, where a way may end
 * @property {Point | null} snap  the one a drag would end on
 * @property {[string, Point][]} began  where those who move began, and what stands on them
 * @property {[Point, Point] | null} throwing  the ball, from and to
 * @property {Point | null} taker  who would get it
 * @property {Point | null} ring  the basket, while the ball is held
 */

/** @param {SVGElement} root @param {Projection} projection @param {Shown} shown */
export function drawMarks(root, projection, { spots, snap, began, throwing, taker, ring }) {
  const { radius, px, width, height } = projection;
  root.setAttribute("viewBox", `0 0 ${width} ${height}`);
  const circle = (/** @type {Point} */ place, /** @type {number} */ r, /** @type {string} */ kind) => {
    const [x, y] = px(place);
    return svg("circle", { class: kind, cx: x.toFixed(1), cy: y.toFixed(1), r: r.toFixed(1) });
  };
  const parts = [
    ...spots.map((spot) => circle(spot, radius * 0.8, "free")),
    ...began.flatMap(([face, place]) => {
      const [x, y] = px(place);
      const digit = svg("text", { class: "was", x: x.toFixed(1), y: y.toFixed(1), "font-size": (radius * (face.length > 1 ? 0.75 : 0.95)).toFixed(1) });
      digit.textContent = face;
      return [circle(place, radius * 0.72, "was"), digit];
    }),
    ...(ring ? [circle(ring, radius * 0.8, "goal")] : []),
    ...(snap ? [circle(snap, radius + 9, "snap")] : []),
    ...(taker ? [circle(taker, radius + 9, "snap")] : []),
  ];
  if (throwing) {
    const [[x0, y0], [x1, y1]] = throwing.map(px);
    parts.push(svg("path", { class: "throw", d: `M${x0.toFixed(1)} ${y0.toFixed(1)}L${x1.toFixed(1)} ${y1.toFixed(1)}` }));
  }
  root.replaceChildren(...parts);
}
