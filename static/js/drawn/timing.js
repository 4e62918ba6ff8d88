/**
 * When everything that is drawn happens. Pure; times are hundredths of a second, places centimetres.
 *
 * Moves of a beat begin together, the next beat once all of it is over. Nobody begins a way before his last one is
 * over, whoever has the ball passes where he has dribbled to, and a pass to somebody on his way is thrown when he is
 * nearly there. A move that cannot be (nobody has the ball) takes no time and is not in the step.
 */

import { FOLLOW_THROUGH, HAND, REACH } from "../steps/figures.js";
import { pointAt, progress, route, timeFor } from "../steps/path.js";
import { shifted } from "./drawing.js";
import { lasting } from "./durations.js";
import { apart, lengthOf, whole } from "./simplify.js";
import { guarding, menOf } from "../steps/guards.js";
import { PLAYERS } from "../steps/drawn-text.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("./drawing.js").Draft} Draft
 * @typedef {import("./drawing.js").Move} Move
 *
 * @typedef {object} Timed  a move and when it happens
 * @property {Move} move
 * @property {"cut" | "dribble" | "screen" | "pass" | "hand" | "shot" | "loose" | "gather" | "none"} kind  none: it cannot be
 * @property {string} who
 * @property {number} to  player, 0 for nobody
 * @property {number} from  what its shift is counted from; it begins later where it has to wait
 * @property {number} start
 * @property {number} end
 * @property {Point[]} way  of a run, with where it begins; where the ball is left
 *
 * @typedef {object} Plan
 * @property {Timed[]} moves  one for each move of the draft, in its order
 * @property {Record<string, Point>} ends  where everybody and everything ends
 * @property {number} holder  who has the ball at the end, 0 nobody
 * @property {Point | null} lies  where it lies
 * @property {boolean} over  it has been shot
 * @property {number} lasts
 */

/** Two so near hand the ball over. */
const ARM = 150;
/** From letting go of a pass to the first step. */
const FOLLOW = FOLLOW_THROUGH * 100;
/** How long a ball is picked up from the floor, and from a catch to the next pass. */
const PICK_UP = 20;
const CATCH = 30;
/** Nothing has to be put off for longer. */
const NUDGE_MOST = 3000;

/** @param {Draft} draft @param {number} level  the board's @returns {Plan} */
export function plan({ places, ball, moves }, level) {
  /** @type {Record<string, Timed[]>} */
  const runs = {};
  /** When somebody can begin a way, as far as the ball lets him. @type {Record<string, number>} */
  const bound = {};
  let holder = typeof ball === "number" ? ball : 0;
  let lies = typeof ball === "number" ? null : ball;
  let [over, ballFree, caught] = [false, 0, false];
  let [beat, base, end] = [0, 0, 0];

  const lastRun = (/** @type {string | number} */ who) => runs[who]?.[runs[who].length - 1];
  const free = (/** @type {string | number} */ who) => lastRun(who)?.end ?? 0;
  const endOf = (/** @type {string} */ who) => lastRun(who)?.way.slice(-1)[0] ?? places[who];
  /** @param {string | number} who @param {number} t @returns {Point} */
  const where = (who, t) => {
    const run = (runs[who] ?? []).filter(({ start }) => start <= t).pop();
    if (!run) return places[who];
    const path = route(run.way.map(([x, y], i) => `${i ? "L" : "M"}${x} ${y}`).join(""));
    return pointAt(path, progress((t - run.start) / (run.end - run.start)) * path.length);
  };
  /** When a runner is within reach of his end. @param {number} who */
  const nearly = (who) => {
    const run = lastRun(who);
    if (!run) return 0;
    return Math.round(run.start + (run.end - run.start) * timeFor(1 - REACH / Math.max(lengthOf(run.way), REACH)));
  };

  /** @param {import("./drawing.js").RunMove} move @returns {Timed} */
  const running = (move) => {
    const { who, points, bar, shift, pace } = move;
    const way = [endOf(who), ...points];
    const kind = String(holder) === who ? "dribble" : bar && !/\D/.test(who) ? "screen" : "cut";
    const start = Math.max(free(who), bound[who] ?? 0, base + shift, 0);
    const lasts = lasting(kind === "dribble" ? "dribble" : "run", lengthOf(way), level, pace);
    const run = { move, kind: /** @type {Timed["kind"]} */ (kind), who, to: 0, from: base, start, end: start + lasts, way };
    (runs[who] ??= []).push(run);
    return run;
  };

  /** @param {import("./drawing.js").GiveMove} move @returns {Timed} */
  const giving = (move) => {
    const { to, shift, pace } = move;
    const giver = holder;
    if (!giver || to === giver) return none(move, String(giver || ""));
    const ready = Math.max(base, free(giver), ballFree + (caught ? CATCH : 0), typeof to === "number" ? nearly(to) : 0);
    const start = Math.max(ballFree, ready + shift);
    const at = where(giver, start);
    bound[giver] = start + FOLLOW;
    holder = 0;
    caught = false;
    if (typeof to !== "number") {
      const place = to === "ring" ? /** @type {Point} */ ([0, 0]) : to;
      const lasts = lasting(to === "ring" ? "shot" : "ball", apart(at, place), level, pace);
      if (to === "ring") over = true;
      else lies = to;
      return { move, kind: to === "ring" ? "shot" : "loose", who: String(giver), to: 0, from: ready, start, end: start + lasts, way: [at, place] };
    }
    const hand = apart(at, where(to, start)) <= ARM;
    let lasts = HAND * 100;
    // He goes on while it flies: where he catches it says how long that takes, and that where he is then.
    for (let i = 0; !hand && i < 3; i++) lasts = lasting("ball", apart(at, where(to, start + lasts)), level, pace);
    holder = to;
    caught = !hand;
    bound[to] = start + lasts;
    if (hand) bound[giver] = start + lasts;
    return { move, kind: hand ? "hand" : "pass", who: String(giver), to, from: ready, start, end: start + lasts, way: [] };
  };

  /** @param {import("./drawing.js").GatherMove} move @returns {Timed} */
  const gathering = (move) => {
    const { who, shift } = move;
    if (!lies) return none(move, String(who));
    const start = Math.max(ballFree, free(who), base + shift);
    [holder, lies, caught] = [who, null, false];
    bound[who] = start + PICK_UP;
    return { move, kind: "gather", who: String(who), to: who, from: base, start, end: start + PICK_UP, way: [] };
  };

  const timed = moves.map((move) => {
    if (move.beat > beat) [beat, base] = [move.beat, end];
    const found = move.does === "run" ? running(move) : move.does === "give" ? giving(move) : gathering(move);
    if (move.does !== "run" && found.kind !== "none") ballFree = found.end;
    end = Math.max(end, found.end);
    return found;
  });
  const ends = Object.fromEntries(Object.keys(places).map((who) => [who, endOf(who)]));
  // Of whom nothing is drawn, a defender goes with his man.
  const defenders = Object.keys(places).filter((who) => who[0] === "x");
  const men = menOf(defenders, PLAYERS.map(Number), (who) => places[who]);
  for (const who of defenders) if (!runs[who] && runs[men[who]]) ends[who] = whole(guarding(ends[men[who]]));
  return { moves: timed, ends, holder, lies, over, lasts: end };
}

/**
 * A move begins earlier or later by about so much; the same draft where it cannot, as something before it has to be over.
 * @param {Draft} draft @param {number} id @param {number} by  hundredths of a second @param {number} level @returns {Draft}
 */
export function nudged(draft, id, by, level) {
  const startOf = (/** @type {Draft} */ each) => plan(each, level).moves.find(({ move }) => move.id === id)?.start ?? 0;
  const before = startOf(draft);
  // What it waits for may hide some of it: then it takes more.
  for (let more = by; Math.abs(more) <= NUDGE_MOST; more += by) {
    const next = shifted(draft, id, more);
    if (startOf(next) !== before) return next;
    if (by < 0) break;
  }
  return draft;
}

/** @param {Move} move @param {string} who @returns {Timed} */
const none = (move, who) => ({ move, kind: "none", who, to: 0, from: 0, start: 0, end: 0, way: [] });
