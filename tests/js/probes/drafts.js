/** Drafts as a hurried hand makes them, from a seed: as texts, and the texts of what those are read back as. */

import { draftOf } from "../../../static/js/drawn/change.js";
import { drawn, paced, shifted, withThen, without } from "../../../static/js/drawn/drawing.js";
import { scriptOf } from "../../../static/js/drawn/finish.js";
import { writeScript } from "../../../static/js/steps/drawn-text.js";
import { plan } from "../../../static/js/drawn/timing.js";

/**
 * @typedef {import("../../../static/js/drawn/drawing.js").Draft} Draft
 * @param {object} given
 * @param {number} given.seeds
 */
export default function ({ seeds }) {
  /** @type {[string, string][]} */
  const made = [];
  for (let seed = 1; seed <= seeds; seed++) {
    const draft = scribbled(seed);
    if (plan(draft, LEVEL).lasts > MOST) continue;
    const text = textOf(draft);
    const again = draftOf(text, LEVEL);
    made.push([text, again ? textOf(again) : ""]);
  }
  return made;
}

const LEVEL = 0.9;
/** Hundredths of a second that a step may last. */
const MOST = 3000;

/** @param {Draft} draft */
const textOf = (draft) => writeScript(scriptOf(draft, plan(draft, LEVEL), {}));

/** @param {number} seed @returns {Draft} */
function scribbled(seed) {
  let state = seed * 7919;
  const random = (/** @type {number} */ n) => (state = (state * 48271) % 2147483647) % n;
  const place = () => /** @type {[number, number]} */ ([random(1500) - 750, random(1300) - 150]);
  const all = ["1", "2", "3", "4", "5", "x1", "x3", "c", "k2"];
  const places = Object.fromEntries(all.map((who) => [who, place()]));
  /** @type {Draft} */
  let now = { kind: "free", places, ball: random(4) ? 1 + random(5) : place(), moves: [], beat: 0 };
  for (let i = 0; i < 11; i++) {
    const who = all[random(8)];
    /** @type {any[]} */
    const moves = [
      { does: "run", who, points: Array.from({ length: 1 + random(5) }, place), bar: !random(4) },
      { does: "give", to: random(9) ? 1 + random(5) : random(2) ? "ring" : place() },
      { does: "gather", who: 1 + random(5) },
    ];
    const what = moves[random(8) < 4 ? 0 : random(5) ? 1 : 2];
    now = drawn(random(3) ? now : withThen(now, true), what);
    const id = 1 + random(now.moves.length);
    if (!random(3)) now = shifted(now, id, 20 * (random(9) - 4));
    if (!random(4)) now = paced(now, id, random(3) - 1);
    if (!random(9)) now = without(now, id);
  }
  return now;
}
