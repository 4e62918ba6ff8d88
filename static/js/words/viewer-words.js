/** What the player's screen itself says. */

import table from "../../../engine/locales/en/viewer.json" with { type: "json" };
import { sayer } from "./sayer.js";
import { sayPlaced } from "./general-words.js";

export const sayViewer = /* @__PURE__ */ sayer("viewer", table);

/** @param {string} at @param {boolean} ball */
export const sayYouStart = (at, ball) => sayViewer(`you_start.${ball ? "ball" : "plain"}`, { at });
/** @param {string} p @param {string} at @param {boolean} ball */
export const sayStarts = (p, at, ball) => sayViewer(`starts.${ball ? "ball" : "plain"}`, { p, at });

/** @param {string} call @param {string} signal */
export function sayCall(call, signal) {
  return sayViewer(`call.${call && signal ? "both" : call ? "call" : "signal"}`, { call, signal });
}

/** @param {string} p @param {string} at  "" for nowhere in particular @param {boolean} ball */
export function sayDisc(p, at, ball) {
  const who = sayPlaced(p, at);
  return ball ? sayViewer("disc_ball", { who }) : who;
}
