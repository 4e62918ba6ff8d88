/** The plays that changes make, and each one's main line. The same at any time. */

import { apply, lineOf } from "../../../static/js/plays/apply.js";

/**
 * @param {object} given
 * @param {import("../../../static/js/plays/apply.js").Op[]} given.ops
 */
export default function ({ ops }) {
  const plays = ops.reduce((all, op) => apply(all, op, { at: 1 }), /** @type {import("../../../static/js/plays/apply.js").Play[]} */ ([]));
  return plays.map((play) => ({ ...play, line: lineOf(play) }));
}
