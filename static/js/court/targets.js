/**
 * What can be tapped on the court: one meaning to a target. The offers say what is possible; this module
 * only decides where each is drawn and by which sign.
 */

import { arrange } from "./layout.js";

/**
 * @typedef {import("../state/wire.js").Offer} Offer
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./projection.js").Projection} Projection
 *
 * @typedef {import("../state/wire.js").Sign} Sign
 *
 * @typedef {object} Target
 * @property {Offer} offer
 * @property {Sign} sign
 * @property {Point} at  CSS pixels
 * @property {number} side  CSS pixels of the square that can be tapped
 * @property {Point} along  unit vector on the screen the sign points in
 * @property {number | null} number  player whose number stands in the sign
 * @property {number} by  player a drag to it begins at
 * @property {boolean} wavy  an empty spot that is dribbled to
 * @property {boolean} [forBall]  a screen for whoever has the ball
 *
 * @typedef {Target & {rank: number, reach: number, lean?: Point}} Wished
 */

/** What ranks before this is wanted in every chain: where there is no room for all, the rest is left to the list. */
const COMMON = 4.5;

/** Whether an offer is a tap on the mate's own disc. @param {Offer} offer */
const isDisc = (offer) => offer.mark[0] === "disc";
/** Side of the space kept free for each corner button, CSS pixels. */
const CORNER = 64;
/** How far the second button of a corner is from the first, CSS pixels. */
const SECOND = 60;

/**
 * The offers that belong to a mate's disc, by his number.
 * @param {Offer[]} offers
 * @param {Standing} standing
 * @returns {Map<number, Offer>}
 */
export function passes(offers, standing) {
  const found = new Map();
  for (const offer of [...offers].sort((a, b) => a.a.length - b.a.length)) {
    if (!isDisc(offer) || offer.to === null || found.has(offer.to)) continue;
    if (offer.a.length === 1 || offer.to !== standing.cutter) found.set(offer.to, offer);
  }
  return found;
}

/**
 * What a mate's disc or a target cannot stand for: a pass to the cutter himself after he has chosen, and what is about him.
 * @param {Offer} offer @param {Standing} standing
 */
const isOfList = (offer, standing) => offer.a.length > 1 && [offer.to, offer.by].includes(standing.cutter);

/**
 * The offers that have no place on this court, so that only the list has them; those that never have one apart.
 * @param {Offer[]} offers @param {Standing} standing @param {Target[]} there
 */
export function leftOut(offers, standing, there) {
  const drawn = new Set([...there.map(({ offer }) => offer), ...passes(offers, standing).values()]);
  return offers.filter((offer) => !drawn.has(offer) && !isOfList(offer, standing));
}

/**
 * The other offers as targets with a place of their own. Those about the cutter himself after he has
 * chosen, and those with no room on a small screen, are in the list only.
 * @param {Offer[]} offers
 * @param {Standing} standing
 * @param {Record<number, Point>} places  where everybody will stand, centimetres
 * @param {Floor} floor
 * @param {Projection} projection
 * @param {boolean} named  names stand under the discs
 * @returns {Target[]}
 */
export function targets(offers, standing, places, floor, projection, named) {
  const wished = offers
    .filter((offer) => !isDisc(offer))
    .filter((offer) => !isOfList(offer, standing))
    .map((offer) => wish(offer, standing, places, floor, projection))
    .filter((each) => each !== null)
    .map((each) => ({ ...each, weight: each.rank < 2 ? 400 : each.rank < COMMON ? 40 : 1 }))
    .sort((a, b) => a.rank - b.rank);
  const disc = Math.max(projection.radius * 2, projection.hit);
  const obstacles = Object.values(places).flatMap((place) => {
    const [x, y] = projection.px(place);
    const box = { x, y, side: disc };
    return named ? [box, { x, y: y + disc / 2 + 8, side: 22 }] : [box];
  });
  const edge = projection.view.turned ? CORNER / 2 : projection.height - CORNER / 2;
  const second = edge + (projection.view.turned ? SECOND : -SECOND);
  for (const x of [CORNER / 2, projection.width - CORNER / 2]) {
    obstacles.push({ x, y: edge, side: CORNER }, { x, y: second, side: CORNER });
  }
  const found = arrange(wished, obstacles, projection.width, projection.height, within(floor, projection));
  return wished.flatMap((each, i) => {
    const at = found[i];
    return at ? [{ ...each, at }] : [];
  });
}

/** Discs of this radius and less are those of a phone, CSS pixels. */
const SMALL = 28;
/** So far over the lines a mark may lie, CSS pixels: what is drawn of it stays inside. */
const OVER = 10;

/** The floor within its lines, as far as it is shown. @param {Floor} floor @param {Projection} projection */
function within({ box: [x0, y0, x1, y1] }, { px, width, height }) {
  const [[ax, ay], [bx, by]] = [px([x0, y0]), px([x1, y1])];
  return {
    left: Math.max(0, Math.min(ax, bx) - OVER), top: Math.max(0, Math.min(ay, by) - OVER),
    right: Math.min(width, Math.max(ax, bx) + OVER), bottom: Math.min(height, Math.max(ay, by) + OVER),
  };
}

/**
 * @param {Offer} offer
 * @param {Standing} standing
 * @param {Record<number, Point>} places
 * @param {Floor} floor
 * @param {Projection} projection
 * @returns {Wished | null}
 */
function wish(offer, standing, places, floor, projection) {
  const { px, radius, hit } = projection;
  const spot = offer.spot ? floor.spots[offer.spot] : null;
  const rim = px(floor.basket);
  const holder = px(places[standing.ball]);
  const near = radius + hit / 2 + 3;
  const far = hit * 8;
  const base = { offer, side: hit, by: offer.by, number: null, wavy: false, along: /** @type {Point} */ ([1, 0]) };

  const [sign, anchor, toward] = offer.mark;

  switch (`${sign} ${anchor}`) {
    case "cut way": {
      if (!spot) return null;
      // The spot itself may be one to post up on; the arrow is on his way there.
      const cutter = px(places[offer.by]);
      return { ...base, sign, at: between(cutter, px(spot), 0.55), along: unit(cutter, px(spot)), rank: 8.5, reach: hit * 1.3 };
    }
    case "spot spot": {
      if (!spot) return null;
      return { ...base, sign, at: px(spot), rank: offer.default ? 0 : 1, reach: radius, number: offer.default ? offer.by : null,
        side: Math.max(hit, radius * 1.7) };
    }
    case "post spot": {
      if (!spot) return null;
      return { ...base, sign, at: px(spot), rank: 9, reach: radius * 0.7, number: offer.default ? offer.by : null };
    }
    case "dribble spot": {
      if (!spot) return null;
      const at = px(spot);
      const along = unit(holder, at);
      // While a cutter waits, an empty spot is his to fill; the handler's way there is marked half-way.
      if (standing.cutter !== null) return { ...base, sign, at: between(holder, at, 0.5), along, rank: 5, reach: hit * 1.5 };
      return { ...base, sign: "spot", wavy: true, at, along, rank: 1, reach: radius, side: Math.max(hit, radius * 1.7) };
    }
    case "shot basket":
      return { ...base, sign, at: rim, rank: 2, reach: far, lean: projection.turn([0, -1]) };
    case "drive ball": {
      const along = projection.turn(veer(places[standing.ball], offer.d, 42));
      // On a small screen the arrow itself is no larger than what a finger needs.
      const room = radius < SMALL ? 0 : 14;
      return { ...base, sign, along, at: ahead(holder, along, near + room), side: hit + room, rank: 3.5,
        reach: hit * 2.2, lean: along };
    }
    case "dribble way":
    case "hand way": {
      if (offer.to === null) return null;
      const mate = px(places[offer.to]);
      const along = unit(holder, mate);
      const dribble = sign === "dribble";
      const gap = Math.hypot(mate[0] - holder[0], mate[1] - holder[1]);
      const middle = between(holder, mate, 0.5);
      const apart = Math.max(0, Math.min(gap / 2 - near, hit * 0.62));
      return { ...base, sign, at: ahead(middle, along, dribble ? apart : -apart), along, rank: dribble ? 3 : 4,
        reach: hit * 1.5, lean: unit(rim, middle) };
    }
    case "hand cutter": {
      const cutter = px(places[offer.by]);
      const along = unit(cutter, holder);
      return { ...base, sign, at: ahead(cutter, along, near + 2), along, rank: 6, reach: hit * 1.3, lean: along };
    }
    case "cut mate": {
      const mate = px(places[offer.to ?? offer.by]);
      const along = unit(mate, rim);
      return { ...base, sign, at: ahead(mate, along, near + 2), along, rank: 6, reach: hit * 1.3, lean: along };
    }
    case "screen ball": {
      if (offer.to === null) return null;
      const cutter = offer.to === standing.cutter;
      const along = projection.turn(veer(places[standing.ball], offer.d, 90));
      const side = projection.turn([offer.d === "right" ? 1 : -1, 0]);
      const at = cutter ? ahead(holder, along, near + 6) : ahead(px(places[offer.to]), side, near);
      return { ...base, sign, by: offer.to, at, along: cutter ? along : side, number: offer.to, rank: 7, forBall: true,
        reach: hit * 1.3, lean: cutter ? along : side };
    }
    case "screen mate": {
      if (offer.to === null) return null;
      const mate = px(places[offer.to]);
      const along = unit(mate, rim);
      const help = toward === "outside";
      const turn = help ? -0.87 : 0.87; // a mate can be screened for in both ways
      const from = /** @type {Point} */ ([along[0] * 0.5 - along[1] * turn, along[1] * 0.5 + along[0] * turn]);
      return { ...base, sign, at: ahead(mate, from, near), along: unit(from, [0, 0]), number: offer.by, rank: 8,
        reach: help ? hit * 1.5 : hit * 0.8, lean: from };
    }
    default:
      return null;
  }
}

/**
 * The way to the basket, veering left or right, as a unit vector on the floor.
 * @param {Point} place  centimetres
 * @param {"left" | "right" | null} side  the offence's, facing the basket
 * @param {number} degrees
 * @returns {Point}
 */
function veer([x, y], side, degrees) {
  const length = Math.hypot(x, y) || 1;
  const [fx, fy] = [-x / length, -y / length];
  const turn = ((side === "right" ? 1 : -1) * degrees * Math.PI) / 180;
  return [fx * Math.cos(turn) - fy * Math.sin(turn), fx * Math.sin(turn) + fy * Math.cos(turn)];
}

/** @param {Point} a @param {Point} b @returns {Point} */
function unit(a, b) {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

/** @param {Point} a @param {Point} along @param {number} distance @returns {Point} */
function ahead(a, along, distance) {
  return [a[0] + along[0] * distance, a[1] + along[1] * distance];
}

/** @param {Point} a @param {Point} b @param {number} u @returns {Point} */
function between(a, b, u) {
  return [a[0] + (b[0] - a[0]) * u, a[1] + (b[1] - a[1]) * u];
}
