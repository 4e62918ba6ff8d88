/** Finding room on the court for everything that can be tapped. Pure geometry in CSS pixels. */

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {{x: number, y: number, side: number}} Box  a square by its middle
 * @typedef {{left: number, top: number, right: number, bottom: number}} Bounds  CSS pixels
 *
 * @typedef {object} Wish  something that wants to be somewhere
 * @property {Point} at  where it would be best
 * @property {number} side  of the square it needs
 * @property {number} reach  how far from there it still makes sense; beyond, it is left out
 * @property {number} [weight]  how much is lost without it, 1 where nothing is said
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

/** So often those that found no room are given theirs first, and everything else after them. */
const AGAIN = 6;

/**
 * Give each wish a place in the space, in the order given, so that no two squares overlap, none covers an
 * obstacle and none sticks out. Where somebody finds no room within their reach, they choose before the others the
 * next time; whoever finds none even so gets none, and what matters least is left out.
 * @param {Wish[]} wishes
 * @param {Box[]} obstacles
 * @param {number} width
 * @param {number} height
 * @param {Bounds} [bounds]  where squares may lie, if that is less than the whole space
 * @returns {(Point | null)[]}
 */
export function arrange(wishes, obstacles, width, height, bounds = { left: 0, top: 0, right: width, bottom: height }) {
  const lack = (/** @type {(Point | null)[]} */ places) => wishes.reduce((sum, { weight = 1 }, i) => sum + (places[i] ? 0 : weight), 0);
  let order = wishes.map((_, i) => i);
  let found = placed(wishes, order, obstacles, bounds);
  let best = found;
  for (let more = AGAIN; more > 0 && best.includes(null); more--) {
    order = [...order.filter((i) => !found[i]), ...order.filter((i) => found[i])];
    found = placed(wishes, order, obstacles, bounds);
    if (lack(found) < lack(best)) best = found;
  }
  return best;
}

/**
 * @param {Wish[]} wishes @param {number[]} order @param {Box[]} obstacles @param {Bounds} bounds
 * @returns {(Point | null)[]}
 */
function placed(wishes, order, obstacles, bounds) {
  const taken = [...obstacles];
  /** @type {(Point | null)[]} */
  const found = wishes.map(() => null);
  for (const i of order) {
    const place = room(wishes[i], taken, bounds);
    found[i] = place;
    if (place) taken.push({ x: place[0], y: place[1], side: wishes[i].side });
  }
  return found;
}

/**
 * @param {Wish} wish
 * @param {Box[]} taken
 * @param {Bounds} bounds
 * @returns {Point | null}
 */
function room({ at, side, reach, lean }, taken, { left, top, right, bottom }) {
  const half = side / 2;
  const clamp = (/** @type {number} */ v, /** @type {number} */ least, /** @type {number} */ most) => Math.min(most - half, Math.max(least + half, v));
  const first = lean ? Math.atan2(lean[1], lean[0]) : 0;
  for (let away = 0; away <= reach; away += RING) {
    for (let k = 0; k < (away ? TURNS : 1); k++) {
      // Turn by turn to either side of the direction it leans in.
      const angle = first + (((k % 2 ? 1 : -1) * Math.ceil(k / 2)) / TURNS) * 2 * Math.PI;
      const x = clamp(at[0] + Math.cos(angle) * away, left, right);
      const y = clamp(at[1] + Math.sin(angle) * away, top, bottom);
      if (Math.hypot(x - at[0], y - at[1]) > reach + RING) continue;
      if (!taken.some((box) => clash(box, { x, y, side }))) return [x, y];
    }
  }
  return null;
}
