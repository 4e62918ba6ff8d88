/** A line of play walked through in a pack: what each step looks like, as far as the pack knows it. */

import { stepOf } from "../pack/offers.js";
import { isSaid, saidStep } from "./local-steps.js";
import { freely } from "./terms.js";

/**
 * @param {import("./shelf.js").Held} held
 * @param {string[][]} line
 * @param {number} level
 * @returns {import("../state/wire.js").StepWire[]}
 */
export function walk({ pack, head }, line, level) {
  const steps = [];
  let standing = head.start;
  for (const actions of line) {
    const step = isSaid(actions) ? saidStep(actions[0], standing, head.floor.spots)
      : standing.off ? null : stepOf(pack, standing, actions, freely(level));
    if (!step) break;
    steps.push(step);
    standing = step.after;
  }
  return steps;
}
