/** The way to where a step begins, for those who stand elsewhere. Pure, no DOM. */

import { STRAY } from "./figures.js";
import { route } from "./path.js";

/** @typedef {import("../state/wire.js").Point} Point */

/**
 * A way there, over at time t.
 * @param {Point} from @param {Point} to @param {number} t @param {number} cue
 * @returns {import("./film.js").Run}
 */
export function strayed(from, to, t, cue) {
  const path = route(`M${from[0].toFixed()} ${from[1].toFixed()}L${to[0]} ${to[1]}`);
  return { t0: t - STRAY, t1: t, path, style: "stray", bend: [0, 0], cue };
}
