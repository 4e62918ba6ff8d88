/** What the check of this device says. */

import table from "../../../engine/locales/en/check.json" with { type: "json" };
import { decimal, sayer } from "./sayer.js";
import { sayGeneral } from "./general-words.js";

export const sayCheck = /* @__PURE__ */ sayer("check", table);

export const TITLES = table.titles;

/** @param {number} count */
export const sayTodos = (count) => sayCheck("todos", { n: count });
/** @param {number} seconds */
export const sayLineFine = (seconds) => sayCheck("line_fine", { seconds: decimal(seconds, 2) });
/** @param {number} seconds */
export const sayLineSlow = (seconds) => sayCheck("line_slow", { seconds: decimal(seconds, 1) });
/** @param {number} seconds */
export const sayLineNoBoard = (seconds) => sayCheck("line_no_board", { seconds: decimal(seconds, 2) });
/** @param {number} held */
export const sayPacksFine = (held) => sayCheck("packs_fine", { n: held });
/** @param {number} held */
export const sayPacksAway = (held) => sayCheck("packs_away", { n: held });
/** @param {number} boards @param {number} plays */
export const sayKeptFine = (boards, plays) => sayCheck("kept_fine", { boards: sayGeneral("boards", { n: boards }), plays: sayGeneral("plays", { n: plays }) });
/** @param {number} count */
export const sayWaitingSome = (count) => sayCheck("waiting_some", { n: count });
/** @param {number} used  bytes @param {number} free */
export const sayRoom = (used, free) => sayCheck("room", { used: size(used), free: size(free) });
/** @param {number} seconds @param {boolean} ahead */
export const sayClockOff = (seconds, ahead) => sayCheck(`clock_off.${ahead ? "ahead" : "behind"}`, { span: span(seconds) });

/** @param {number} bytes */
function size(bytes) {
  const millions = bytes / 1e6;
  return millions >= 1000 ? sayCheck("gigabytes", { size: (millions / 1000).toFixed(0) }) : sayCheck("megabytes", { size: Math.max(1, Math.round(millions)) });
}

/** @param {number} seconds */
function span(seconds) {
  if (seconds < 90) return sayCheck("span.seconds", { n: Math.round(seconds) });
  return seconds < 5400 ? sayCheck("span.minutes", { n: Math.round(seconds / 60) }) : sayCheck("span.hours", { n: Math.round(seconds / 3600) });
}
