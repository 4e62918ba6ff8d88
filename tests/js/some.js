/** What tests in JavaScript play with: numbers from a seed, and what the engine has supplied. */

import { readFileSync } from "node:fs";
import process from "node:process";

/**
 * @typedef {object} Played  a chain of a formation, played at random by the engine
 * @property {string} formation
 * @property {import("../../static/js/state/wire.js").Floor} floor
 * @property {import("../../static/js/state/wire.js").Standing} start
 * @property {import("../../static/js/state/wire.js").StepWire[]} steps
 * @property {any[]} offers  what could be tapped before each step and at the end, as it crosses the wire
 */

/** @type {{words: import("../../static/js/words/speaker.js").SpokenTable, chains: Played[]}} */
export const { words: table, chains } = JSON.parse(readFileSync(String(process.env.QUINTET_SUPPLIED), "utf-8"));

/** Dice that fall the same way each time. @param {number} seed */
export function dice(seed) {
  let state = (seed * 7919 + 12345) % 2147483647;
  const next = () => (state = (state * 48271) % 2147483647) / 2147483647;
  for (let i = 0; i < 4; i++) next(); // the first numbers of neighbouring seeds are alike
  return {
    /** A number from `from` up to, but not, `to`. @param {number} from @param {number} to */
    between: (from, to) => from + next() * (to - from),
    /** A whole number below `count`. @param {number} count */
    below: (count) => Math.floor(next() * count),
    /** @param {number} share */
    chance: (share) => next() < share,
    /** One of these. @template T @param {T[]} all @returns {T} */
    of: (all) => all[Math.floor(next() * all.length)],
  };
}

/** Seeds, for tests that are worth repeating. @param {number} count */
export const seeds = (count) => Array.from({ length: count }, (_, i) => i + 1);
