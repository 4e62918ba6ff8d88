/** Where a play branches, by the device's own copy of it. */

import { forksOf } from "../../../static/js/plays/forks.js";

/**
 * @param {object} given
 * @param {string[][]} given.path  what is on the board
 * @param {[number, string][]} given.tree
 */
export default function ({ path, tree }) {
  return forksOf([], path, tree, () => [["pass", {}]]);
}
