/**
 * The timeout clock as a value. It counts by the wall clock, so that neither a hidden tab nor loading the page
 * again makes it slow. Pure.
 *
 * @typedef {object} Clock
 * @property {number} length  seconds it was set to
 * @property {number | null} ends  milliseconds since 1970; null while it stands
 * @property {number} left  seconds left where it stands
 *
 * @typedef {"run" | "late" | "last" | "over"} Level  how near the end it is
 */

import { sayHuddle } from "../words/huddle-words.js";

/** What can be set by hand, seconds. */
export const LEAST = 10;
export const MOST = 600;
export const STEP = 5;

/** Seconds left at which the clock changes its look, and may sound: the second warning and the last one. */
export const LATE = 15;
export const LAST = 5;

/**
 * Lengths of a time-out, seconds, and whose rules have them. FIBA 60; NFHS 30 and 60 (rule 5-12); NBA 75;
 * NCAA 30 and 60, and 75 for a full one on television.
 */
export const PRESETS = Object.freeze([
  { seconds: 30, whose: "NCAA, NFHS" },
  { seconds: 60, whose: "FIBA, NCAA, NFHS" },
  { seconds: 75, whose: sayHuddle("on_tv") },
]);

/** A mark that was passed longer ago than this, seconds, is not sounded any more. */
const STALE = 1.5;

/** @param {number} length seconds @returns {Clock} */
export function ready(length) {
  return { length, ends: null, left: length };
}

/** @param {Clock} clock @param {number} now ms since 1970 @returns {Clock} */
export function started(clock, now) {
  return { ...clock, ends: now + clock.left * 1000 };
}

/** @param {Clock} clock @param {number} now ms since 1970 @returns {Clock} */
export function stopped(clock, now) {
  return { ...clock, ends: null, left: leftAt(clock, now) };
}

/** Seconds left, at most what it was set to: a device whose time is put back has no longer time-outs. @param {Clock} clock @param {number} now */
export function leftAt({ length, ends, left }, now) {
  return ends === null ? left : Math.min(length, Math.max(0, (ends - now) / 1000));
}

/** As it is read: a second is shown until it has passed. @param {number} left seconds */
export function figure(left) {
  const seconds = Math.ceil(left - 1e-6);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

/** @param {number} left seconds @returns {Level} */
export function levelAt(left) {
  if (left <= 0) return "over";
  if (left <= LAST) return "last";
  return left <= LATE ? "late" : "run";
}

/** The mark passed on the way from one time to another, seconds left; null for none, or too long ago. @param {number} before @param {number} after */
export function passed(before, after) {
  const mark = [0, LAST, LATE].find((each) => before > each && after <= each);
  return mark !== undefined && mark - after < STALE ? mark : null;
}

/** Milliseconds until the figure changes. @param {number} left seconds */
export function untilNext(left) {
  return Math.max(10, Math.ceil((left - Math.ceil(left - 1e-6) + 1) * 1000));
}

/** @param {number} length seconds */
export function within(length) {
  return Math.min(MOST, Math.max(LEAST, Math.round(length)));
}

/** A clock as it was kept, or null if it is none. @param {unknown} kept @returns {Clock | null} */
export function revived(kept) {
  if (typeof kept !== "object" || kept === null) return null;
  const { length, ends, left } = /** @type {Record<string, unknown>} */ (kept);
  if (typeof length !== "number" || within(length) !== length) return null;
  if (typeof left !== "number" || !(left >= 0 && left <= length)) return null;
  if (ends !== null && (typeof ends !== "number" || !Number.isFinite(ends))) return null;
  return { length, ends, left };
}
