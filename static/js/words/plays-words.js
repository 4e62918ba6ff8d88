/** What the plays say: the panel, saving, the row of pinned ones. */

import table from "../../../engine/locales/en/plays.json" with { type: "json" };
import { sayer } from "./sayer.js";
import { sayGeneral } from "./general-words.js";

export const sayPlays = /* @__PURE__ */ sayer("plays", table);

/** @param {number} legal @param {number} of */
export function sayToday(legal, of) {
  if (legal === of) return sayPlays("today.all");
  return legal ? sayPlays("today.some", { legal, steps: sayGeneral("steps", { n: of }) }) : sayPlays("today.none");
}

/** @param {number} n @param {boolean} safe */
export const sayWaiting = (n, safe) => sayPlays(safe ? "waiting" : "waiting_unsafe", { n });
