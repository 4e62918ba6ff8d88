/** What each line says, from what was found out. Pure. */

import { sayCheck, sayClockOff, sayKeptFine, sayLineFine, sayLineNoBoard, sayLineSlow, sayPacksAway, sayPacksFine, sayRoom, sayWaitingSome } from "../words/check-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {keyof typeof import("../words/check-words.js").TITLES} Name
 * @typedef {{fine: boolean, says: string}} Line
 * @typedef {import("./server.js").ServerTold} ServerTold
 * @typedef {import("./keeping.js").Keeping} Keeping
 */

/** An answer slower than this is told of, seconds. */
const SLOW = 1;
/** A clock this far off is told of, seconds. */
const OFF = 60;
/** Less room than this is hardly any, bytes. */
const ROOM = 50e6;
/** Pictures a second: smooth from here, and too few below. */
const SMOOTH = 50;
const FEW = 24;

const fine = (/** @type {string} */ says) => ({ fine: true, says });
const todo = (/** @type {string} */ says) => ({ fine: false, says });

/** @param {ServerTold | null} asked @param {boolean | null} live  null: there is no board to try it with @returns {Line} */
export function connection(asked, live) {
  if (!asked) return todo(sayCheck("line_none"));
  if (live === false) return todo(sayCheck("line_no_live"));
  if (asked.seconds > SLOW) return todo(sayLineSlow(asked.seconds));
  return fine(live ? sayLineFine(asked.seconds) : sayLineNoBoard(asked.seconds));
}

/** @param {boolean} safe @param {boolean} https @param {boolean} trust @returns {Line} */
export function address(safe, https, trust) {
  if (safe) return fine(https ? sayCheck("address_fine") : sayCheck("address_here"));
  return todo(trust ? sayCheck("address_trust") : sayCheck("address_not"));
}

/** @param {ServerTold | null} asked @param {Keeping} kept @returns {Line} */
export function key(asked, kept) {
  if (!asked) return kept.boards.length ? fine(sayCheck("key_away")) : todo(sayCheck("key_unknown"));
  const { roles } = asked.answer;
  const head = roles.includes("head_coach");
  if (!roles.length) return todo(sayCheck("key_none"));
  return fine(head && roles.length > 1 ? sayCheck("key_both") : head ? sayCheck("key_head") : sayCheck("key_assistant"));
}

/** @param {import("./keeping.js").App} found @returns {Line} */
export function app(found) {
  return { fresh: fine(sayCheck("app_fine")), here: fine(sayCheck("app_away")), new: todo(sayCheck("app_new")), none: todo(sayCheck("app_not")), cannot: todo(sayCheck("app_cannot")) }[found];
}

/** @param {number} held @param {number} wanted @param {boolean} compared @param {boolean} safe @returns {Line} */
export function packs(held, wanted, compared, safe) {
  if (!safe) return todo(sayCheck("packs_loose"));
  if (!held && !wanted) return todo(sayCheck("packs_none"));
  if (held < wanted) return todo(sayCheck("packs_some", { held, wanted }));
  return fine(compared ? sayPacksFine(held) : sayPacksAway(held));
}

/** @param {Keeping} kept @returns {Line} */
export function keeping({ persistent, boards, plays }) {
  if (!persistent) return todo(sayCheck("kept_loose"));
  return boards.length ? fine(sayKeptFine(boards.length, plays)) : todo(sayCheck("kept_none"));
}

/** @param {Keeping} kept @returns {Line} */
export const waiting = ({ waiting }) => (waiting ? todo(sayWaitingSome(waiting)) : fine(sayCheck("waiting_none")));

/** @param {"kept" | "may clear" | "none"} promise @param {{used: number, free: number} | null} room @returns {Line} */
export function storage(promise, room) {
  const withRoom = (/** @type {string} */ sentence) => listed([sentence, ...(room ? [sayRoom(room.used, room.free)] : [])], "sentences");
  if (room && room.free < ROOM) return todo(withRoom(sayCheck("storage_full")));
  if (promise === "none") return todo(sayCheck("storage_none"));
  return promise === "kept" ? fine(withRoom(sayCheck("storage_fine"))) : todo(withRoom(sayCheck("storage_may")));
}

/** @param {ServerTold | null} asked @returns {Line} */
export function clock(asked) {
  if (!asked || !Number.isFinite(asked.ahead)) return fine(sayCheck("clock_away"));
  return Math.abs(asked.ahead) < OFF ? fine(sayCheck("clock_fine")) : todo(sayClockOff(Math.abs(asked.ahead), asked.ahead > 0));
}

/** @param {"" | "pen" | "pressed pen" | "finger"} seen @returns {Line} */
export const pen = (seen) => fine({ "": sayCheck("pen_none"), pen: sayCheck("pen_seen"), "pressed pen": sayCheck("pen_pressure"), finger: sayCheck("pen_finger") }[seen]);

/** @param {number | null} rate @returns {Line} */
export function frames(rate) {
  if (rate === null) return todo(sayCheck("frames_hidden"));
  if (rate >= SMOOTH) return fine(sayCheck("frames_fine", { rate }));
  return todo(rate >= FEW ? sayCheck("frames_some", { rate }) : sayCheck("frames_few", { rate }));
}

/** @param {"yes" | "not now" | "no"} on @returns {Line} */
export const awake = (on) => ({ yes: fine(sayCheck("awake_fine")), "not now": todo(sayCheck("awake_not")), no: todo(sayCheck("awake_none")) })[on];

/** @param {"app" | "can" | "no"} whole @returns {Line} */
export const screen = (whole) => ({ app: fine(sayCheck("screen_app")), can: fine(sayCheck("screen_can")), no: todo(sayCheck("screen_not")) })[whole];
