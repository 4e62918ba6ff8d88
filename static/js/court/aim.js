/** What a drag from a player's disc points at. Pure geometry in CSS pixels. */

/**
 * @typedef {import("../state/wire.js").Point} Point
 *
 * @typedef {object} Aim  something a drag can end at
 * @property {import("../state/wire.js").Offer} offer
 * @property {number} by  the player the drag begins at
 * @property {Point} at  CSS pixels
 * @property {Element} element
 */

/** A drag is at least this long to mean something, CSS pixels. */
export const DRAG = 34;
/** A finger this near to the middle of something is on it, CSS pixels. */
const ON = 34;
/** How far from a move's direction a drag may point, degrees. */
const CONE = 32;

/**
 * What a drag from a player's disc means: the move under the finger, or the one it points along.
 * @param {Aim[]} aims
 * @param {number} player
 * @param {Point} origin
 * @param {Point} now
 * @returns {Aim | null}
 */
export function pick(aims, player, origin, now) {
  const drag = [now[0] - origin[0], now[1] - origin[1]];
  const length = Math.hypot(drag[0], drag[1]);
  if (length < DRAG) return null;
  let best = null;
  let least = Infinity;
  for (const aim of aims) {
    if (aim.by !== player) continue;
    const way = [aim.at[0] - origin[0], aim.at[1] - origin[1]];
    const reach = Math.hypot(way[0], way[1]) || 1;
    const turn = (Math.acos(Math.max(-1, Math.min(1, (way[0] * drag[0] + way[1] * drag[1]) / (reach * length)))) * 180) / Math.PI;
    const off = Math.hypot(now[0] - aim.at[0], now[1] - aim.at[1]);
    if (turn > CONE && off > ON) continue;
    const cost = off < ON ? off - 1000 : turn * 3 + Math.max(0, reach - length) * 0.5;
    if (cost < least) [least, best] = [cost, aim];
  }
  return best;
}
