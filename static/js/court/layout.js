/** Finding room on the court for everything that can be tapped. Pure geometry in CSS pixels. */

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {{x: number, y: number, side: number}} Box  a square by its middle
 *
 * @typedef {object} Wish  something that wants to be somewhere
 * @property {Point} at  where it would be best
 * @property {number} side  of the square it needs
 * @property {number} reach  how far from there it still makes sense; beyond, it is left out
 * @property {Point} [lean]  unit vector of the direction it would rather give way in
 */

const GAP = 2;
const RING = 6;
const TURNS = 24;

/** @param {Box} a @param {Box} b */
function clash(a, b) {
  const need = (a.side + b.side) / 2 + GAP;
  return Math.abs(a.x - b.x) < need && Math.abs(a.y - b.y) < need;
}

/**
 * Give each wish a place in the space, in the order given, so that no two squares overlap, none covers an
 * obstacle and none sticks out. A wish that finds no room within its reach gets none.
 * @param {Wish[]} wishes
 * @param {Box[]} obstacles
 * @param {number} width
 * @param {number} height
 * @returns {(Point | null)[]}
 */
export function arrange(wishes, obstacles, width, height) {
  /** @type {Box[]} */
  const taken = [...obstacles];
  return wishes.map((wish) => {
    const place = room(wish, taken, width, height);
    if (place) taken.push({ x: place[0], y: place[1], side: wish.side });
    return place;
  });
}

/**
 * @param {Wish} wish
 * @param {Box[]} taken
 * @param {number} width
 * @param {number} height
 * @returns {Point | null}
 */
function room({ at, side, reach, lean }, taken, width, height) {
  const half = side / 2;
  const clamp = (/** @type {number} */ v, /** @type {number} */ most) => Math.min(most - half, Math.max(half, v));
  const first = lean ? Math.atan2(lean[1], lean[0]) : 0;
  for (let away = 0; away <= reach; away += RING) {
    for (let k = 0; k < (away ? TURNS : 1); k++) {
      // Turn by turn to either side of the direction it leans in.
      const angle = first + (((k % 2 ? 1 : -1) * Math.ceil(k / 2)) / TURNS) * 2 * Math.PI;
      const x = clamp(at[0] + Math.cos(angle) * away, width);
      const y = clamp(at[1] + Math.sin(angle) * away, height);
      if (Math.hypot(x - at[0], y - at[1]) > reach + RING) continue;
      if (!taken.some((box) => clash(box, { x, y, side }))) return [x, y];
    }
  }
  return null;
}
