/** What the board says: buttons, states, hints. */

import table from "../../../engine/locales/en/board.json" with { type: "json" };
import { listed, sayer } from "./sayer.js";

export const sayBoard = /* @__PURE__ */ sayer("board", table);

/** @param {number} n  changes */
export const saySavedHereLong = (n) => sayBoard("saved_here_long", { n });
/** @param {number} n  changes */
export const sayNotSavedLong = (n) => sayBoard("not_saved_long", { n });
/** @param {number} n  actions that have no place on the court */
export const sayMore = (n) => sayBoard("more_in_list", { n });
/** @param {number} n  other branches */
export const sayFork = (n) => sayBoard("fork", { n });

/** @param {number} level  0 to 1 @param {boolean} first @param {boolean} last */
export function sayLevelOf(level, first, last) {
  return sayBoard(`level_of.${first ? "young" : last ? "grown" : "plain"}`, { percent: Math.round(level * 100) });
}

/** @param {string} p @param {string[]} acts */
export const sayMayNot = (p, acts) => sayBoard("may_not", { p, acts: listed(acts, "or") });
/** @param {string[]} players */
export const sayAreOff = (players) => sayBoard("are_off", { n: players.length, players: listed(players) });
