/** A way as a finger drew it, with as few points as keep its shape. Pure. */

/** @typedef {import("../state/wire.js").Point} Point */

/** Left out is what lies so near to the line without it, centimetres; more where there would be too many points. */
const NEAR = 6;
const COARSER = 1.5;
/** Most points of a way. */
export const POINTS_MAX = 16;

/**
 * @param {Point[]} way  its first and last points stay
 * @param {number} [most]
 * @returns {Point[]} of whole centimetres
 */
export function simplified(way, most = POINTS_MAX) {
  let found = way;
  for (let near = NEAR; ; near *= COARSER) {
    found = thin(way, near);
    if (found.length <= most) break;
  }
  return found.map(whole);
}

/** Ramer, Douglas and Peucker's way. @param {Point[]} way @param {number} near @returns {Point[]} */
function thin(way, near) {
  if (way.length < 3) return way;
  const last = way.length - 1;
  let [far, at] = [0, 0];
  for (let i = 1; i < last; i++) {
    const off = offLine(way[i], way[0], way[last]);
    if (off > far) [far, at] = [off, i];
  }
  if (far <= near) return [way[0], way[last]];
  return [...thin(way.slice(0, at + 1), near).slice(0, -1), ...thin(way.slice(at), near)];
}

/** How far a place is from the line between two others. @param {Point} place @param {Point} a @param {Point} b */
function offLine([x, y], [ax, ay], [bx, by]) {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const u = square ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / square)) : 0;
  return Math.hypot(x - ax - u * dx, y - ay - u * dy);
}

/** @param {Point} place @returns {Point} */
export const whole = ([x, y]) => [Math.round(x), Math.round(y)];

/** @param {Point[]} way  centimetres */
export const lengthOf = (way) => way.reduce((sum, [x, y], i) => (i ? sum + Math.hypot(x - way[i - 1][0], y - way[i - 1][1]) : 0), 0);

/** @param {Point} a @param {Point} b */
export const apart = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
