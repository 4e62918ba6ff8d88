/**
 * Defenders who stand in a drawing: each keeps to his man, unless it is drawn where he goes, as in `engine/motion/guards.py`.
 * Pure, no DOM.
 */

import { where } from "./film.js";
import { GUARD, GUARD_SHARE } from "./figures.js";

/**
 * @typedef {import("./film.js").Film} Film
 * @typedef {import("../state/wire.js").Point} Point
 */

/** What a run seems to begin too early by, as times are added up: film seconds. */
const EARLY = 1e-6;

/**
 * Add what defenders do in a step.
 * @param {Film} film  changed in place
 * @param {number} start  film seconds
 * @param {number} cue  index of the step
 * @param {Set<string>} [drawn]  those of whom the step says where they go
 */
export function keepToMen(film, start, cue, drawn = new Set()) {
  const there = Object.keys(film.shown).filter((who) => who[0] === "x" && film.shown[who].at(-1)?.[1] === Infinity).sort();
  if (there.some((who) => !film.men[who])) film.men = menOf(there, film.players, (who) => where(film, who, start));
  for (const who of there.filter((each) => !drawn.has(each))) {
    for (const run of film.runs[film.men[who]].filter((each) => each.cue === cue && each.t0 > start - EARLY)) {
      const { path } = run;
      const here = where(film, who, run.t0);
      const [x, y] = [path.x[path.x.length - 1], path.y[path.y.length - 1]];
      const off = offOf(x, y);
      film.runs[who].push({ ...run, style: "guard", bend: [here[0] - path.x[0], here[1] - path.y[0]], aside: [-x * off, -y * off] });
    }
  }
}

/** How far off his man a defender stands, as a share of the man's way from the basket. @param {number} x @param {number} y */
function offOf(x, y) {
  const far = Math.hypot(x, y);
  return far ? Math.min(GUARD, GUARD_SHARE * far) / far : 0;
}

/** Where a defender is once his man has come to a place, centimetres. @param {Point} man @returns {Point} */
export const guarding = ([x, y]) => [x - x * offOf(x, y), y - y * offOf(x, y)];

/**
 * Whom each keeps to: all together as near as they can be, the lower number where it is equal.
 * @param {string[]} defenders @param {number[]} players @param {(who: string | number) => Point} place
 * @returns {Record<string, number>}
 */
export function menOf(defenders, players, place) {
  const far = defenders.map((who) => {
    const [x, y] = place(who);
    return Object.fromEntries(players.map((man) => {
      const [u, v] = place(man);
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
    for (const man of players) if (!chosen.includes(man)) choose([...chosen, man], sum + far[chosen.length][man]);
  };
  choose([], 0);
  return Object.fromEntries(defenders.map((who, i) => [who, best[i]]));
}
