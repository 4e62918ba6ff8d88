/** What a drag by hand comes to: somebody put elsewhere, his way, or what the ball does. */

import { inside } from "../court/projection.js";
import { bent } from "./bend.js";
import { drawn, placed, removed } from "./drawing.js";
import { spotsOf } from "./finish.js";
import { apart, lengthOf, simplified, whole } from "./simplify.js";
import { isExtra, PLAYERS } from "../steps/drawn-text.js";
import { sayDrawn } from "../words/drawn-words.js";
import { nameOf } from "../court/extras.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./drawing.js").Draft} Draft
 *
 * @typedef {object} Sheet  what is drawn on
 * @property {"setup" | "draw"} mode
 * @property {Draft} now
 * @property {import("./timing.js").Plan} plan  of it
 * @property {import("../state/wire.js").Floor} floor
 * @property {import("../court/projection.js").Projection} projection
 * @property {import("./bend.js").Bend | null} bend  a way that can be bent
 * @property {(sentence: string) => void} say
 *
 * @typedef {object} Drag  what it would be if the finger went now; places in centimetres
 * @property {string} who
 * @property {Draft} draft
 * @property {Point[]} way  of a runner, with where he begins
 * @property {Point | null} snap
 * @property {[Point, Point] | null} throwing
 * @property {string | null} taker
 * @property {boolean} away  it would be taken off the floor
 */

/** A way that ends so near to a free spot, or to a ball that lies, ends there; somebody put down so near stands there. */
const SNAP = 60;
const PUT = 45;
/** A way shorter than this is none. */
const LEAST = 30;
/** Between two places noted of a way. */
const GRAIN = 4;
/** A finger so near to the court's edge has left it, CSS pixels. */
const EDGE = 10;

/** Free spots for one of the five: nobody else ends there. @param {Sheet} sheet @param {string} who @param {Record<string, Point>} ends @returns {Point[]} */
export function freeSpots({ floor }, who, ends) {
  if (isExtra(who)) return [];
  return spotsOf(floor).map(([, spot]) => spot).filter((spot) => PLAYERS.every((n) => n === who || apart(ends[n], spot) > 5));
}

/** @param {Point[]} places @param {Point} at @param {number} within @returns {Point | null} */
function nearestOf(places, at, within) {
  const best = places.reduce((found, place) => (!found || apart(place, at) < apart(found, at) ? place : found), /** @type {Point | null} */ (null));
  return best && apart(best, at) <= within ? best : null;
}

/** The player under a finger. @param {Sheet} sheet @param {Record<string, Point>} places @param {Point} finger @param {number} but */
function playerAt({ projection }, places, finger, but) {
  const far = (/** @type {string} */ n) => apart(inside(projection, projection.px(places[n])), finger);
  const near = PLAYERS.filter((n) => Number(n) !== but).sort((a, b) => far(a) - far(b))[0];
  return far(near) <= Math.max(40, projection.radius * 1.4) ? near : null;
}

/** @param {Sheet} sheet @param {string} who @returns {Drag | null} null: said why not */
export function beginDrag(sheet, who) {
  const { mode, now, plan, say } = sheet;
  const { holder, lies, over } = plan;
  const blank = { who, draft: now, way: /** @type {Point[]} */ ([]), snap: null, throwing: null, taker: null, away: false };
  if (mode === "setup" || who === "bend") return blank;
  if (who === "ball" && (over || lies)) {
    say(over ? sayDrawn("gone") : sayDrawn("lies_there"));
    return null;
  }
  if (who.startsWith("k")) {
    say(sayDrawn("cone_stays"));
    return null;
  }
  return who === "ball" ? { ...blank, throwing: [plan.ends[holder], plan.ends[holder]] } : { ...blank, way: [plan.ends[who]] };
}

/** @param {Sheet} sheet @param {Drag} drag @param {Point[]} points  CSS pixels @param {Point} finger @returns {Drag} */
export function moveDrag(sheet, drag, points, finger) {
  const { mode, now, projection, plan } = sheet;
  const { who } = drag;
  const cm = (/** @type {Point} */ place) => whole(projection.cm(inside(projection, place)));
  const at = cm(points[points.length - 1]);
  if (who === "bend") return { ...drag, draft: sheet.bend ? bent(now, sheet.bend, at) : now };
  if (mode === "setup" && who === "ball") {
    const taker = playerAt(sheet, now.places, finger, 0);
    return { ...drag, draft: { ...now, ball: at }, taker };
  }
  if (mode === "setup") {
    const away = isExtra(who) && [finger[0], finger[1], projection.width - finger[0], projection.height - finger[1]].some((far) => far < EDGE);
    const snap = nearestOf(freeSpots(sheet, who, now.places), at, PUT);
    return { ...drag, draft: placed(now, who, at), snap, away };
  }
  if (who === "ball") {
    const taker = playerAt(sheet, plan.ends, finger, plan.holder);
    const ring = !taker && apart(cm(finger), [0, 0]) <= Math.max(SNAP, 44 / projection.scale);
    return { ...drag, throwing: [plan.ends[plan.holder], cm(finger)], taker, snap: ring ? [0, 0] : null };
  }
  const way = [...drag.way];
  for (const place of points.map(cm)) if (apart(place, way[way.length - 1]) >= GRAIN) way.push(place);
  const snap = nearestOf([...(plan.lies && !isExtra(who) ? [plan.lies] : []), ...freeSpots(sheet, who, plan.ends)], at, SNAP);
  return { ...drag, way, snap, draft: way.length > 1 ? run(now, who, way) : now };
}

/** @param {Draft} draft @param {string} who @param {Point[]} way  with where he begins */
const run = (draft, who, way) => drawn(draft, { does: "run", who, points: simplified(way).slice(1), bar: false });

/** The draft once the finger has gone; the same one if nothing came of it. @param {Sheet} sheet @param {Drag} drag @returns {Draft} */
export function endDrag(sheet, drag) {
  const { mode, now, plan, say } = sheet;
  const { who, snap, taker, away, throwing } = drag;
  if (who === "bend") return drag.draft;
  if (mode === "setup") {
    if (who === "ball") return { ...drag.draft, ball: taker ? Number(taker) : drag.draft.ball };
    if (away) {
      say(sayDrawn("removed", { who: nameOf(who) }));
      return removed(now, who);
    }
    return snap ? placed(now, who, snap) : drag.draft;
  }
  if (throwing) return thrown(sheet, taker ? Number(taker) : snap ? "ring" : throwing[1]);
  const way = snap ? [...drag.way.slice(0, -1), snap] : drag.way;
  return walked(sheet, who, way.length < 2 && snap ? [...drag.way, snap] : way, plan.lies);
}

/** @param {Sheet} sheet @param {number | "ring" | Point} to */
export const thrown = ({ now, plan }, to) => (plan.holder && to !== plan.holder ? drawn(now, { does: "give", to }) : now);

/** A way drawn; whoever comes to a ball that lies picks it up. @param {Sheet} sheet @param {string} who @param {Point[]} way @param {Point | null} lies */
export function walked({ now }, who, way, lies) {
  const takes = lies && !isExtra(who) && apart(way[way.length - 1], lies) < 1;
  if (lengthOf(way) < LEAST && !takes) return now;
  const next = lengthOf(way) < 1 ? now : run(now, who, way);
  return takes ? drawn(next, { does: "gather", who: Number(who) }) : next;
}
