/** A way that has been drawn, bent afterwards: taken hold of in its middle. Pure; centimetres. */

import { apart, lengthOf, simplified } from "./simplify.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./drawing.js").Draft} Draft
 * @typedef {{id: number, who: string, way: Point[]}} Bend  a run, and its way with where it begins
 */

/** Pieces a bent way is drawn in. */
const PIECES = 10;

/** The way that can be bent: of the move that is open, if it is a run. @param {import("./timing.js").Plan} plan @param {number} line  its id @returns {Bend | null} */
export function bendable({ moves }, line) {
  const found = moves.find(({ move, way }) => move.id === line && move.does === "run" && way.length > 1);
  return found ? { id: line, who: found.who, way: found.way } : null;
}

/** Half-way along. @param {Point[]} way @returns {Point} */
export function middle(way) {
  let left = lengthOf(way) / 2;
  for (let i = 1; i < way.length; i++) {
    const [a, b] = [way[i - 1], way[i]];
    const far = apart(a, b);
    if (far >= left && far > 0) return [a[0] + ((b[0] - a[0]) * left) / far, a[1] + ((b[1] - a[1]) * left) / far];
    left -= far;
  }
  return way[way.length - 1];
}

/** The same run through another place in its middle: where it begins and ends stays. @param {Draft} draft @param {Bend} bend @param {Point} through @returns {Draft} */
export function bent(draft, { id, way }, [x, y]) {
  const [[ax, ay], [bx, by]] = [way[0], way[way.length - 1]];
  const [cx, cy] = [2 * x - (ax + bx) / 2, 2 * y - (ay + by) / 2];
  const curve = Array.from({ length: PIECES + 1 }, (_, i) => {
    const [u, v] = [i / PIECES, 1 - i / PIECES];
    return /** @type {Point} */ ([v * v * ax + 2 * u * v * cx + u * u * bx, v * v * ay + 2 * u * v * cy + u * u * by]);
  });
  const points = [...simplified(curve).slice(1, -1), way[way.length - 1]];
  return { ...draft, moves: draft.moves.map((move) => (move.id === id && move.does === "run" ? { ...move, points } : move)) };
}
