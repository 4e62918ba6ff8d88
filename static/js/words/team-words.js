/** What the team page says: headings, buttons, states. */

import table from "../../../engine/locales/en/team.json" with { type: "json" };
import { decimal, languageTag, sayer, whole } from "./sayer.js";

export const sayTeam = /* @__PURE__ */ sayer("team", table);

/** A copy's name that is not taken yet. @param {string} name @param {string[]} taken */
export function sayCopyOf(name, taken) {
  const [before, behind] = sayTeam("copy_of", { name: "{name}" }).split("{name}");
  // Within a name English does without the capital that a title begins with; not every language has such a rule.
  const within = languageTag.startsWith("en") ? `${name.charAt(0).toLowerCase()}${name.slice(1)}` : name;
  const first = name.startsWith(before) && name.endsWith(behind) ? name : sayTeam("copy_of", { name: within });
  let copy = first;
  for (let n = 2; taken.includes(copy); n++) copy = sayTeam("numbered", { name: first, n });
  return copy;
}

/** @param {number} n */
const positions = (n) => sayTeam("positions_count", { n });
/** @param {number} looked @param {number} known */
export const sayCheckCount = (looked, known) => sayTeam("check_count", { positions: positions(looked), known: whole(known) });
/** @param {number} n @param {number} steps */
export const sayCheckLooked = (n, steps) => sayTeam("check_looked", { positions: positions(n), steps: sayTeam("steps_count", { n: steps }) });
/** @param {number} n */
export const sayInPositions = (n) => (n > 1 ? sayTeam("in_positions", { n }) : "");

/** @param {number} side  hundredths of a metre from the middle @param {number} out  from the basket */
export function sayWhereIs(side, out) {
  return sayTeam(`where_is.${side < 0 ? "left" : "right"}`, { side: decimal(Math.abs(side) / 100, 1), out: decimal(out / 100, 1) });
}

/** @param {number} metres @param {number} feet */
export const sayApart = (metres, feet) => sayTeam("apart", { metres: decimal(metres, 2), feet: decimal(feet, 1) });
/** @param {number} n */
export const sayPostsNumber = (n) => (n ? String(n) : sayTeam("posts_number"));
/** @param {number} n  how many there are already */
export const sayNewLineup = (n) => (n ? sayTeam("new_lineup", { n: n + 1 }) : sayTeam("first_lineup"));
