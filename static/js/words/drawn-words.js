/** What is said where a play is drawn. */

import table from "../../../engine/locales/en/drawn.json" with { type: "json" };
import { decimal, listed, sayer } from "./sayer.js";

export const sayDrawn = /* @__PURE__ */ sayer("drawn", table);

/** What stands beside a move: how long it takes and, if asked for, when it starts. @param {number} lasts  hundredths of a second @param {number} [start] */
export function sayLasts(lasts, start) {
  const seconds = decimal(lasts / 100, 1);
  return start === undefined ? sayDrawn("lasts", { seconds }) : sayDrawn("lasts_from", { seconds, start: decimal(start / 100, 1) });
}
/** @param {number} hundredths  of a second */
export const saySeconds = (hundredths) => sayDrawn("seconds", { seconds: decimal(hundredths / 100, 1) });

/** What a player does, and where to, if that is a spot, in all forms of its name. @param {"cut" | "moved" | "dribble" | "screen"} what @returns {(p: string, spot: Record<string, string> | null) => string} */
const leading = (what) => (p, spot) => sayDrawn(`${what}.${spot ? "to" : "on"}`, { p, ...spot });
export const sayCut = leading("cut");
export const sayMoved = leading("moved");
export const sayDribble = leading("dribble");
export const sayScreen = leading("screen");
/** @param {string[]} names */
export const sayOff = (names) => sayDrawn("off", { n: names.length, names: listed(names) });
