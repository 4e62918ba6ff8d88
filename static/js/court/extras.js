/** Who is in a drawing beside the five: defenders, the coach and cones, as elements nobody can tap. */

/** Their names for who cannot see them. @type {Record<string, (n: string) => string>} */
const NAMES = { x: (n) => `Defender ${n}`, c: () => "Coach", k: (n) => `Cone ${n}` };
/** @type {Record<string, string>} */
const KINDS = { x: "defender", c: "trainer", k: "cone" };

/** What an extra is called. @param {string} who */
export const nameOf = (who) => NAMES[who[0]](who.slice(1));

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
