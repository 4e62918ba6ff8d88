/** A draft as a film for the stage, with what it comes to. Pure. */

import { compose, standing } from "../steps/schedule.js";
import { scriptOf, verdictOf } from "./finish.js";
import { scriptStep } from "../steps/drawn-step.js";
import { plan } from "./timing.js";

/**
 * @typedef {import("./drawing.js").Draft} Draft
 *
 * @typedef {object} Setting  what it is drawn for
 * @property {import("../state/wire.js").Floor} floor
 * @property {number} level
 * @property {import("../state/wire.js").Standing} before  where everybody stood
 * @property {import("../pack/pack.js").Pack | null} pack
 *
 * @typedef {object} Preview
 * @property {import("./timing.js").Plan} plan
 * @property {import("./finish.js").Verdict} verdict
 * @property {import("../steps/drawn-text.js").Script} script
 * @property {import("../steps/film.js").Film} film
 */

/** What drafts came to, as a finger asks for it again and again. @type {WeakMap<Draft, {setting: Setting, preview: Preview}>} */
const known = new WeakMap();

/** @param {Draft} draft @param {Setting} setting @returns {Preview} */
export function previewOf(draft, setting) {
  const found = known.get(draft);
  if (found && Object.entries(setting).every(([key, value]) => Reflect.get(found.setting, key) === value)) return found.preview;
  const preview = made(draft, setting);
  known.set(draft, { setting, preview });
  return preview;
}

/** @param {Draft} draft @param {Setting} setting @returns {Preview} */
function made(draft, { floor, level, before, pack }) {
  const found = plan(draft, level);
  const verdict = verdictOf(found, floor, pack);
  const script = scriptOf(draft, found, verdict.on);
  const film = compose(standing(before, floor.spots), [scriptStep(script, before, floor.spots)]);
  return { plan: found, verdict, script, film };
}

/** When it stands still for those who want no movement: at the end of each beat, film seconds. @param {import("./timing.js").Plan} found */
export function stopsOf({ moves }) {
  /** @type {Map<number, number>} */
  const ends = new Map();
  for (const { move, end } of moves) ends.set(move.beat, Math.max(ends.get(move.beat) ?? 0, end));
  return [...ends.values()].sort((a, b) => a - b).map((end) => end / 100);
}
