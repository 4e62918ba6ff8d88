/** Strokes of ink with as few points as keep their shape. */

import { simplify } from "../../../static/js/ink/model.js";

/**
 * @param {object} given
 * @param {import("../../../static/js/ink/model.js").InkPoint[][]} given.strokes
 * @param {number} given.tolerance  centimetres
 */
export default function ({ strokes, tolerance }) {
  return strokes.map((points) => simplify(points, tolerance));
}
