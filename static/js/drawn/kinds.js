/** Ready-made beginnings, and where a defender, the coach or a cone is put down first. Pure; centimetres. */

import { placed } from "./drawing.js";
import { apart, whole } from "./simplify.js";
import { PLAYERS } from "../steps/drawn-text.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("./drawing.js").Draft} Draft
 */

// Where such plays begin: common practice, no source.
/** The one with the ball stands so far outside the line. */
const OUT = 42;
/** A throw-in from the side is taken between here and there, from the baseline's side of the ring. */
const SIDE = [330, 760];
/** Beside the lane on the baseline. */
const BASE_X = 290;
/** Elbows and blocks; four along the baseline; four across the free-throw line; who brings the ball, above them. */
const BOX = [[-245, 420], [245, 420], [-245, 130], [245, 130]];
const FLAT = [[-690, 10], [690, 10], [-330, 60], [330, 60]];
const HIGH = [[-640, 420], [640, 420], [-245, 420], [245, 420]];
const ABOVE = 940;
/** One behind the other, from the one who throws in. */
const ROW = [120, 285, 450, 615];
/** How the other four of a throw-in may begin. */
export const SETS = /** @type {const} */ (["box", "stack", "line"]);
/** A defender stands so far from his man, towards the basket, and nobody is put down much nearer to another. */
export const GUARD = 140;
const ROOM = 0.8;

/**
 * The draft as one of the kinds. As long as nothing is drawn, players are put where such a step begins; the same
 * kind once more takes the other side.
 * @param {Draft} draft @param {string} kind @param {Record<string, Point>} home  where the five stood at first @param {Floor} floor
 * @returns {Draft}
 */
export function asKind(draft, kind, home, floor) {
  const again = draft.kind === kind;
  const next = { ...draft, kind };
  if (draft.moves.length || kind === "free" || kind === "timeout") return next;
  const has = typeof draft.ball === "number" ? draft.ball : 1;
  const [x0, y0, x1] = floor.box;
  const [x, y] = home[has];
  const before = draft.places[has];
  const left = again ? before[0] > 0 : x < 0;
  const stands = draft.kind === "free" || draft.kind === "timeout" || again ? draft.places : { ...draft.places, ...home };
  if (kind === "side") {
    const at = [left ? x0 - OUT : x1 + OUT, again ? before[1] : Math.max(SIDE[0], Math.min(SIDE[1], y))];
    return put({ ...next, places: stands, ball: has }, { [has]: at });
  }
  if (kind === "base") return put({ ...next, ball: has }, { ...shared(home, has, BOX), [has]: [left ? -BASE_X : BASE_X, y0 - OUT] });
  return put({ ...next, ball: has }, { ...shared(home, has, kind === "last" ? FLAT : HIGH), [has]: [0, ABOVE] });
}

/** Who throws in, or brings the ball. @param {Draft} draft */
export const inbounder = ({ ball }) => (typeof ball === "number" ? ball : 1);

/** Whether somebody throws in, and how it begins can still be chosen. @param {Draft} draft */
export const isInbound = ({ kind, moves }) => !moves.length && (kind === "side" || kind === "base");

/** Somebody else throws in: they and who did change places. @param {Draft} draft @param {number} who @returns {Draft} */
export function inboundBy(draft, who) {
  const has = inbounder(draft);
  const { [has]: out, [who]: own } = draft.places;
  return put({ ...draft, ball: who }, { [has]: own, [who]: out });
}

/**
 * The four others as such throw-ins begin, seen from who throws in: common practice, no source.
 * @param {Draft} draft @param {(typeof SETS)[number]} name @returns {Draft}
 */
export function inSet(draft, name) {
  const has = inbounder(draft);
  const [x, y] = draft.places[has];
  const s = x < 0 ? -1 : 1;
  const side = draft.kind === "side";
  const goals = name === "box" ? BOX
    : name === "stack" ? ROW.map((far) => (side ? [s * (far + 20), y] : [s * 245, far]))
      : side ? ROW.map((_, i) => [s * 300, 100 + 230 * i]) : ROW.map((_, i) => [300 * i - 450, 420]);
  return put(draft, shared(draft.places, has, goals));
}

/** The set the four others stand in, if they stand in one. @param {Draft} draft */
export const setOf = (draft) => SETS.find((name) => {
  const { places } = inSet(draft, name);
  return Object.keys(places).every((who) => apart(places[who], draft.places[who]) === 0);
}) ?? "";

/** @param {Draft} draft @param {Record<string, number[]>} where @returns {Draft} */
const put = (draft, where) => Object.entries(where).reduce((now, [who, [x, y]]) => placed(now, who, whole([x, y])), draft);

/** The other four on four places, each on the one that is nearest as a whole. @param {Record<string, Point>} home @param {number} has @param {number[][]} goals */
function shared(home, has, goals) {
  const others = PLAYERS.filter((who) => Number(who) !== has);
  let best = { total: Infinity, taken: /** @type {number[]} */ ([]) };
  const go = (/** @type {number[]} */ taken, /** @type {number} */ total) => {
    if (taken.length === others.length) return void (total < best.total && (best = { total, taken }));
    goals.forEach(([x, y], i) => {
      if (!taken.includes(i)) go([...taken, i], total + apart(home[others[taken.length]], [x, y]));
    });
  };
  go([], 0);
  return Object.fromEntries(others.map((who, i) => [who, goals[best.taken[i]]]));
}

/** @param {Draft} draft @returns {string | null} the next defender who is not on the floor yet */
export const nextDefender = ({ places }) => ["x1", "x2", "x3", "x4", "x5"].find((who) => !places[who]) ?? null;

/** @param {Draft} draft @returns {string | null} */
export const nextCone = ({ places }) => ["k1", "k2", "k3", "k4", "k5", "k6"].find((who) => !places[who]) ?? null;

/** A defender between his man and the basket. @param {Draft} draft @param {string} who x1 to x5 @param {number} far  from him */
export function withDefender(draft, who, far) {
  const [x, y] = draft.places[who.slice(1)];
  const all = Math.hypot(x, y);
  const share = all > far * 2 ? (all - far) / all : 0.5;
  return placed(draft, who, roomAt(draft, [x * share, y * share], far * ROOM));
}

/** All who are not there yet. @param {Draft} draft @param {number} far */
export function withDefenders(draft, far) {
  for (let who = nextDefender(draft); who; who = nextDefender(draft)) draft = withDefender(draft, who, far);
  return draft;
}

/** The coach, beside the court; a cone, on it. @param {Draft} draft @param {string} who @param {Floor} floor @param {number} far  from others */
export function withMark(draft, who, floor, far) {
  const [, , x1] = floor.box;
  return placed(draft, who, roomAt(draft, who === "c" ? [x1 - 60, 860] : [0, 720], far * ROOM));
}

/** The nearest free place to one. @param {Draft} draft @param {Point} at @param {number} room @returns {Point} */
function roomAt({ places }, at, room) {
  const clear = (/** @type {Point} */ place) => Object.values(places).every((other) => apart(other, place) >= room);
  for (let away = 0; away < 400; away += 30) {
    for (let k = 0; k < (away ? 12 : 1); k++) {
      const turn = (k / 12) * 2 * Math.PI;
      const place = whole([at[0] + Math.cos(turn) * away, at[1] + Math.sin(turn) * away]);
      if (clear(place)) return place;
    }
  }
  return whole(at);
}
