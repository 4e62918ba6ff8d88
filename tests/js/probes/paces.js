/** How long what is drawn takes over these lengths, hundredths of a second, by how it is done. */

import { lasting } from "../../../static/js/drawn/durations.js";

/**
 * @param {object} given
 * @param {number[]} given.lengths  centimetres
 * @param {number} given.level
 */
export default function ({ lengths, level }) {
  const times = (/** @type {"run" | "dribble" | "ball"} */ how) => lengths.map((length) => lasting(how, length, level));
  return { run: times("run"), dribble: times("dribble"), ball: times("ball") };
}
