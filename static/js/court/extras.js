/** Who is in a drawing beside the five: defenders, the coach and cones, as elements nobody can tap. */

import { sayBoard } from "../words/board-words.js";

/** @type {Record<string, string>} */
const KINDS = { x: "defender", c: "trainer", k: "cone" };

/** What an extra is called, for who cannot see it. @param {string} who */
export function nameOf(who) {
  const n = who.slice(1);
  return who[0] === "x" ? sayBoard("defender", { n }) : who[0] === "k" ? sayBoard("cone", { n }) : sayBoard("coach");
}

/** @param {string} who  x1 to x5, c, k1 to k6 */
export function makeExtra(who) {
  const made = document.createElement("span");
  made.className = `extra ${KINDS[who[0]]}`;
  made.dataset.extra = who;
  made.setAttribute("role", "img");
  made.setAttribute("aria-label", nameOf(who));
  const face = document.createElement("b");
  face.textContent = who[0] === "k" ? "" : who.toUpperCase();
  made.append(face);
  return made;
}
