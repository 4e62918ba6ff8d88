/** A line of play walked through in a pack: what each step looks like, as far as the pack knows it. */

import { stepOf } from "../pack/menu.js";
import { freely } from "./terms.js";
import { readRecovery, recoveryStep } from "./recovery.js";

/**
 * @param {import("./shelf.js").Held} held
 * @param {string[][]} line
 * @param {number} level
 * @returns {import("../wire.js").StepWire[]}
 */
export function walk({ pack, head }, line, level) {
  const steps = [];
  let standing = head.start;
  for (const actions of line) {
    const step = actions[0].startsWith("recover:") ? recovered(actions[0], standing, head.floor.spots)
      : stepOf(pack, standing, actions, freely(level));
    if (!step) break;
    steps.push(step);
    standing = step.after;
  }
  return steps;
}

/** @param {string} text @param {import("../wire.js").Standing} standing @param {Record<string, import("../wire.js").Point>} places */
function recovered(text, standing, places) {
  const { where, spots } = readRecovery(text);
  return Object.values(spots).every((spot) => places[spot]) ? recoveryStep(where, spots, places, standing.ball) : null;
}
