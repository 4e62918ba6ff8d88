/** Whether a chain has somebody outside the lines, as a passer at an inbound is. Pure. */

import { isScript } from "./drawn-text.js";

/**
 * @param {import("../state/wire.js").StepWire[]} steps
 * @param {import("../state/wire.js").Floor["box"]} box
 */
export function goesOut(steps, [x0, y0, x1]) {
  const out = (/** @type {number[]} */ [x, y]) => x < x0 || x > x1 || y < y0;
  return steps.some((step) => isScript(step)
    && (Object.values(step.from ?? {}).some(out) || step.tl.runs.some(([, , , path]) => pointsOf(path).some(out))));
}

/** The joints of straight ways. @param {string} path */
function pointsOf(path) {
  return path.split(/[ML]/).slice(1).map((point) => point.split(" ").map(Number));
}
