/**
 * Defenders who stand in a drawing and then see play go on by rule: each keeps to his man, as in `engine/motion/guards.py`.
 * Pure, no DOM.
 */

import { where } from "./film.js";
import { GUARD, GUARD_SHARE } from "./figures.js";

/** @typedef {import("./film.js").Film} Film */

/**
 * Add what defenders do while a step is played by rule.
 * @param {Film} film  changed in place
 * @param {number} start  film seconds
 * @param {number} cue  index of the step
 */
export function keepToMen(film, start, cue) {
  const there = Object.keys(film.shown).filter((who) => who[0] === "x" && film.shown[who].at(-1)?.[1] === Infinity).sort();
  if (there.some((who) => !film.men[who])) film.men = men(film, there, start);
  for (const who of there) {
    for (const run of film.runs[film.men[who]].filter((each) => each.cue === cue)) {
      const { path } = run;
      const here = where(film, who, run.t0);
      const [x, y] = [path.x[path.x.length - 1], path.y[path.y.length - 1]];
      const far = Math.hypot(x, y);
      const off = far ? Math.min(GUARD, GUARD_SHARE * far) / far : 0;
      film.runs[who].push({ ...run, style: "guard", bend: [here[0] - path.x[0], here[1] - path.y[0]], aside: [-x * off, -y * off] });
    }
  }
}

/**
 * Whom each keeps to: all together as near as they can be, the lower number where it is equal.
 * @param {Film} film @param {string[]} defenders @param {number} t @returns {Record<string, number>}
 */
function men(film, defenders, t) {
  const far = defenders.map((who) => {
    const [x, y] = where(film, who, t);
    return Object.fromEntries(film.players.map((man) => {
      const [u, v] = where(film, man, t);
      return [man, Math.hypot(x - u, y - v)];
    }));
  });
  let [best, least] = [/** @type {number[]} */ ([]), Infinity];
  /** @param {number[]} chosen @param {number} sum */
  const choose = (chosen, sum) => {
    if (chosen.length === defenders.length) {
      if (sum < least) [best, least] = [chosen, sum];
      return;
    }
    for (const man of film.players) if (!chosen.includes(man)) choose([...chosen, man], sum + far[chosen.length][man]);
  };
  choose([], 0);
  return Object.fromEntries(defenders.map((who, i) => [who, best[i]]));
}
