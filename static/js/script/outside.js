/** Whether anybody stands outside the lines in a drawing, so that the floor is shown with room beside it. Pure. */

/** @type {WeakMap<import("../wire.js").StepWire[], boolean>} */
const known = new WeakMap();

/** @param {import("../wire.js").StepWire[]} steps @param {import("../wire.js").Floor} floor */
export function goesOut(steps, { box: [x0, y0, x1, y1] }) {
  const found = known.get(steps);
  if (found !== undefined) return found;
  const out = steps.some(({ from = {} }) => Object.values(from).some(([x, y]) => x < x0 || x > x1 || y < y0 || y > y1));
  known.set(steps, out);
  return out;
}
