/**
 * What is being drawn by hand: who stands where, who has the ball, and the moves in the order they were drawn.
 * Values and pure functions; places are whole centimetres. When each move happens is worked out in timing.js.
 */

import { MOST, PLAYERS, WHO } from "../steps/drawn-text.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 *
 * @typedef {object} Timing
 * @property {number} id
 * @property {number} beat  moves of one beat begin together; the next one begins once it is over
 * @property {number} shift  later than it would be, hundredths of a second; below 0 earlier
 * @property {number} pace  taps on faster, below 0 on slower
 * @typedef {Timing & {does: "run", who: string, points: Point[], bar: boolean}} RunMove  bar: he sets a screen
 * @typedef {Timing & {does: "give", to: number | "ring" | Point}} GiveMove  whoever has the ball gives it
 * @typedef {Timing & {does: "gather", who: number}} GatherMove  he picks up the ball that lies
 * @typedef {RunMove | GiveMove | GatherMove} Move
 *
 * @typedef {object} Draft
 * @property {string} kind
 * @property {Record<string, Point>} places  at the start, by actor (see text.js)
 * @property {number | Point} ball  who has it at the start, or where it lies
 * @property {Move[]} moves  their beats never fall
 * @property {number} beat  of the move that is drawn next
 *
 * @typedef {{past: Draft[], now: Draft, future: Draft[], tag: string}} History
 */

/** So many changes can be taken back. */
const UNDO_MAX = 200;
/** Most taps on slower or faster. */
const PACE_MAX = 6;

/** @param {Record<string, Point>} places  of the five @param {number | Point} ball @returns {Draft} */
export const blankDraft = (places, ball) => ({ kind: "free", places, ball, moves: [], beat: 0 });

/** @param {Draft} draft */
export const lastBeat = ({ moves }) => (moves.length ? moves[moves.length - 1].beat : -1);

/** Whether what is drawn next waits for what is there. @param {Draft} draft */
export const waits = (draft) => draft.moves.length > 0 && draft.beat > lastBeat(draft);

/** What is drawn next begins once everything is over, or with what was drawn last. @param {Draft} draft @param {boolean} then @returns {Draft} */
export const withThen = (draft, then) => ({ ...draft, beat: Math.max(0, lastBeat(draft) + (then && draft.moves.length ? 1 : 0)) });

/** @param {Draft} draft @param {string} who @param {Point} place @returns {Draft} */
export const placed = (draft, who, place) => ({ ...draft, places: inOrder({ ...draft.places, [who]: place }) });

/** Without defenders, coach and cones. @param {Record<string, Point>} places */
export const five = (places) => Object.fromEntries(PLAYERS.map((n) => [n, places[n]]));

/** @param {Record<string, Point>} places */
const inOrder = (places) => Object.fromEntries(WHO.filter((who) => places[who]).map((who) => [who, places[who]]));

/** Take a defender, the coach or a cone away, and all he does. @param {Draft} draft @param {string} who @returns {Draft} */
export function removed(draft, who) {
  const { [who]: _gone, ...places } = draft.places;
  return { ...draft, places, moves: draft.moves.filter((move) => move.does !== "run" || move.who !== who) };
}

/**
 * With one more move, which joins the beat under way or begins the next one.
 * @param {Draft} draft
 * @param {Omit<RunMove, keyof Timing> | Omit<GiveMove, keyof Timing> | Omit<GatherMove, keyof Timing>} what
 * @returns {Draft}
 */
export function drawn(draft, what) {
  const id = 1 + Math.max(0, ...draft.moves.map((move) => move.id));
  const move = /** @type {Move} */ ({ ...what, id, beat: draft.beat, shift: 0, pace: 0 });
  return { ...draft, moves: [...draft.moves, move] };
}

/** @param {Draft} draft @param {number} id @param {(move: Move) => Move} how @returns {Draft} */
const changed = (draft, id, how) => ({ ...draft, moves: draft.moves.map((move) => (move.id === id ? how(move) : move)) });

/** @param {Draft} draft @param {number} id @param {number} by  hundredths of a second */
export const shifted = (draft, id, by) => changed(draft, id, (move) => ({ ...move, shift: move.shift + by }));

/** @param {Draft} draft @param {number} id @param {number} by  1: faster, -1: slower */
export const paced = (draft, id, by) =>
  changed(draft, id, (move) => ({ ...move, pace: Math.max(-PACE_MAX, Math.min(PACE_MAX, move.pace + by)) }));

/** A cut becomes a screen, and a screen a cut. @param {Draft} draft @param {number} id */
export const barred = (draft, id) => changed(draft, id, (move) => (move.does === "run" ? { ...move, bar: !move.bar } : move));

/** @param {Draft} draft @param {number} id @returns {Draft} */
export function without(draft, id) {
  const next = { ...draft, moves: draft.moves.filter((move) => move.id !== id) };
  return { ...next, beat: Math.max(0, Math.min(next.beat, lastBeat(next) + 1)) };
}

/** Whether something kept on the device is a draft. @param {any} found @returns {found is Draft} */
export function isDraft(found) {
  const isPoint = (/** @type {any} */ place) => Array.isArray(place) && place.length === 2 && place.every((v) => Number.isInteger(v) && Math.abs(v) <= MOST.far);
  return Boolean(found && typeof found.kind === "string" && Number.isInteger(found.beat) && Array.isArray(found.moves))
    && PLAYERS.every((n) => isPoint(found.places?.[n]))
    && Object.entries(found.places).every(([who, place]) => WHO.includes(who) && isPoint(place))
    && (isPoint(found.ball) || [1, 2, 3, 4, 5].includes(found.ball))
    && found.moves.every((/** @type {any} */ move) => ["run", "give", "gather"].includes(move?.does)
      && [move.id, move.beat, move.shift].every(Number.isInteger) && Number.isFinite(move.pace)
      && (move.does !== "run" || (Array.isArray(move.points) && move.points.length > 0 && move.points.every(isPoint) && found.places[move.who])));
}

/** @param {Draft} now @returns {History} */
export const begun = (now) => ({ past: [], now, future: [], tag: "" });

/**
 * @param {History} history @param {Draft} now
 * @param {string} [tag]  changes in a row with the same one are taken back together, "" never
 * @returns {History}
 */
export function done(history, now, tag = "") {
  if (now === history.now) return history;
  const past = tag && tag === history.tag ? history.past : [...history.past.slice(1 - UNDO_MAX), history.now];
  return { past, now, future: [], tag };
}

/** @param {History} history @returns {History} */
export function undone({ past, now, future }) {
  if (!past.length) return { past, now, future, tag: "" };
  return { past: past.slice(0, -1), now: past[past.length - 1], future: [now, ...future], tag: "" };
}

/** @param {History} history @returns {History} */
export function redone({ past, now, future }) {
  if (!future.length) return { past, now, future, tag: "" };
  return { past: [...past, now], now: future[0], future: future.slice(1), tag: "" };
}
