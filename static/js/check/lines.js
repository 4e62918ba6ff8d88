/** What each line says, from what was found out. Pure. */

import { C } from "./phrases.js";

/**
 * @typedef {keyof typeof C.titles} Name
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
  if (!asked) return todo(C.lineNone);
  if (live === false) return todo(C.lineNoLive);
  if (asked.seconds > SLOW) return todo(C.lineSlow(asked.seconds));
  return fine(live ? C.lineFine(asked.seconds) : C.lineNoBoard(asked.seconds));
}

/** @param {boolean} safe @param {boolean} https @param {boolean} trust @returns {Line} */
export function address(safe, https, trust) {
  if (safe) return fine(https ? C.addressFine : C.addressHere);
  return todo(trust ? C.addressTrust : C.addressNot);
}

/** @param {ServerTold | null} asked @param {Keeping} kept @returns {Line} */
export function key(asked, kept) {
  if (!asked) return kept.boards.length ? fine(C.keyAway) : todo(C.keyUnknown);
  const { roles } = asked.answer;
  const head = roles.includes("head_coach");
  if (!roles.length) return todo(C.keyNone);
  return fine(head && roles.length > 1 ? C.keyBoth : head ? C.keyHead : C.keyAssistant);
}

/** @param {import("./keeping.js").App} found @returns {Line} */
export function app(found) {
  return { fresh: fine(C.appFine), here: fine(C.appAway), new: todo(C.appNew), none: todo(C.appNot), cannot: todo(C.appCannot) }[found];
}

/** @param {number} held @param {number} wanted @param {boolean} compared @param {boolean} safe @returns {Line} */
export function packs(held, wanted, compared, safe) {
  if (!safe) return todo(C.packsLoose);
  if (!held && !wanted) return todo(C.packsNone);
  if (held < wanted) return todo(C.packsSome(held, wanted));
  return fine(compared ? C.packsFine(held) : C.packsAway(held));
}

/** @param {Keeping} kept @returns {Line} */
export function keeping({ persistent, boards, plays }) {
  if (!persistent) return todo(C.keptLoose);
  return boards.length ? fine(C.keptFine(boards.length, plays)) : todo(C.keptNone);
}

/** @param {Keeping} kept @returns {Line} */
export const waiting = ({ waiting }) => (waiting ? todo(C.waitingSome(waiting)) : fine(C.waitingNone));

/** @param {"kept" | "may clear" | "none"} promise @param {{used: number, free: number} | null} room @returns {Line} */
export function storage(promise, room) {
  const words = room ? C.room(room.used, room.free) : "";
  if (room && room.free < ROOM) return todo(C.storageFull(words));
  if (promise === "none") return todo(C.storageNone);
  return promise === "kept" ? fine(C.storageFine(words)) : todo(C.storageMay(words));
}

/** @param {ServerTold | null} asked @returns {Line} */
export function clock(asked) {
  if (!asked || !Number.isFinite(asked.ahead)) return fine(C.clockAway);
  return Math.abs(asked.ahead) < OFF ? fine(C.clockFine) : todo(C.clockOff(Math.abs(asked.ahead), asked.ahead > 0));
}

/** @param {"" | "pen" | "pressed pen" | "finger"} seen @returns {Line} */
export const pen = (seen) => fine({ "": C.penNone, pen: C.penSeen, "pressed pen": C.penPressure, finger: C.penFinger }[seen]);

/** @param {number | null} rate @returns {Line} */
export function frames(rate) {
  if (rate === null) return todo(C.framesHidden);
  if (rate >= SMOOTH) return fine(C.framesFine(rate));
  return todo(rate >= FEW ? C.framesSome(rate) : C.framesFew(rate));
}

/** @param {"yes" | "not now" | "no"} on @returns {Line} */
export const awake = (on) => ({ yes: fine(C.awakeFine), "not now": todo(C.awakeNot), no: todo(C.awakeNone) })[on];

/** @param {"app" | "can" | "no"} whole @returns {Line} */
export const screen = (whole) => ({ app: fine(C.screenApp), can: fine(C.screenCan), no: todo(C.screenNot) })[whole];
