/**
 * From centimetres on the floor to CSS pixels in the court's space and back. No DOM.
 *
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {object} View  how the coach looks at the floor
 * @property {boolean} turned  the basket at the bottom
 * @property {boolean} mirrored  left and right changed over
 * @property {boolean} [big]  everything drawn larger, to be seen from further away
 * @property {boolean} [wide]  room for somebody who stands outside the lines
 *
 * @typedef {object} Projection
 * @property {number} width  CSS pixels of the space
 * @property {number} height
 * @property {number} scale  CSS pixels a centimetre
 * @property {View} view
 * @property {number} radius  of a player's disc, CSS pixels
 * @property {number} hit  side of the smallest thing to tap, CSS pixels
 * @property {(place: Point) => Point} px  floor to pixels
 * @property {(place: Point) => Point} cm  pixels to the floor
 * @property {(vector: Point) => Point} turn  a direction on the floor to one on the screen, length kept
 * @property {string} matrix  the same as `px`, as an SVG transform
 */

/** Floor shown beyond the lines, centimetres: room for half a disc in a corner. */
const APRON = 42;
/** The same where somebody stands outside the lines: room for a disc and its ball; discs are larger on small screens. */
const WIDE = { apron: 130, small: 165, width: 600 };
/** The least of the floor to show, centimetres from the baseline: everybody's spots with room below the top. */
const NEED = 1040;
/** Disc radius: of the floor's scale (62 cm), between what a phone can hold and what two metres need. */
const DISC = { share: 62, least: 20, most: 33 };
const HIT = 48;
/** The same in the big view, for a huddle around a tablet or a projector's wall. */
const BIG_DISC = { share: 66, least: 22, most: 96 };
const BIG_HIT = { share: 90, most: 130 };

/**
 * Fit the half court into a space: all of its width, and of its length as much as there is room for.
 * @param {number} width
 * @param {number} height
 * @param {[number, number, number, number]} box  the half court, centimetres
 * @param {View} view
 * @returns {Projection}
 */
export function project(width, height, box, view) {
  const [x0, y0, x1, y1] = box;
  const apron = !view.wide ? APRON : width < WIDE.width ? WIDE.small : WIDE.apron;
  const across = x1 - x0 + 2 * apron;
  const along = y1 - y0 + 2 * apron;
  const scale = Math.max(0.05, Math.min(width / across, height / Math.min(along, NEED + 2 * apron)));
  const shown = Math.min(along, height / scale);
  const down = view.turned ? -1 : 1;
  const right = down * (view.mirrored ? -1 : 1);
  const left = width / 2 - (right * scale * (x0 + x1)) / 2;
  const spare = Math.max(0, height - shown * scale) / 2;
  const disc = view.big ? BIG_DISC : DISC;
  const baseline = (apron - y0) * scale + spare;
  const top = view.turned ? height - baseline : baseline;
  return {
    width,
    height,
    scale,
    view,
    radius: Math.min(disc.most, Math.max(disc.least, scale * disc.share)),
    hit: view.big ? Math.min(BIG_HIT.most, Math.max(HIT, scale * BIG_HIT.share)) : HIT,
    px: ([x, y]) => [left + right * x * scale, top + down * y * scale],
    cm: ([x, y]) => [(right * (x - left)) / scale, (down * (y - top)) / scale],
    turn: ([x, y]) => [right * x, down * y],
    matrix: `matrix(${right * scale} 0 0 ${down * scale} ${left} ${top})`,
  };
}

/**
 * A place kept inside the space, so that a player who runs out of the picture waits at its edge.
 * @param {Projection} projection
 * @param {Point} place  pixels
 * @returns {Point}
 */
export function inside(projection, [x, y]) {
  const edge = projection.radius + 3;
  return [
    Math.min(projection.width - edge, Math.max(edge, x)),
    Math.min(projection.height - edge, Math.max(edge, y)),
  ];
}
