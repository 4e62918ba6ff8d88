/** The steps of lines of play, walked in a pack. */

import { walk } from "../../../static/js/offline/walk.js";
import { Pack } from "../../../static/js/pack/pack.js";

/**
 * @param {object} given
 * @param {string} given.text  the pack, as it is sent
 * @param {any} given.head
 * @param {{line: string[][], level: number}[]} given.cases
 */
export default function ({ text, head, cases }) {
  const held = { pack: new Pack(JSON.parse(text)), head };
  return cases.map(({ line, level }) => walk(held, line, level));
}
