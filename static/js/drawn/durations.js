/** How long what is drawn by hand takes. Pure. */

import { PACES, SHOT, SHOT_PER_M } from "../steps/figures.js";
import { meanSpeed } from "../steps/speed.js";

/** One tap on slower or faster changes a duration by so much. */
const STEP = 1.2;

/**
 * @param {keyof typeof PACES | "shot"} how
 * @param {number} length  centimetres
 * @param {number} level  the board's
 * @param {number} [taps]  on faster, below 0 on slower
 * @returns {number} hundredths of a second, at least 5
 */
export function lasting(how, length, level, taps = 0) {
  const metres = length / 100;
  const seconds = how === "shot" ? SHOT + SHOT_PER_M * metres : metres / meanSpeed(PACES[how], metres);
  return Math.max(5, Math.round((seconds * 100) / level / STEP ** taps));
}
