/** What is said where a play is drawn. */

import table from "../../../engine/locales/en/drawn.json" with { type: "json" };
import { decimal, listed, sayer } from "./sayer.js";

export const sayDrawn = /* @__PURE__ */ sayer("drawn", table);

/** @param {number} hundredths  of a second */
export const sayStarts = (hundredths) => sayDrawn("starts", { seconds: decimal(hundredths / 100, 1) });
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
