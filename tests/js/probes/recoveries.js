/** How everybody gets back on spots from these places, by a pack. */

import { nearest, recoveryStep, recoveryText } from "../../../static/js/offline/recovery.js";
import { Pack } from "../../../static/js/pack/pack.js";

/**
 * @typedef {Record<string, import("../../../static/js/state/wire.js").Point>} Places
 * @param {object} given
 * @param {string} given.text  the pack, as it is sent
 * @param {Places} given.places  of the spots
 * @param {{where: Places, ball: number}[]} given.cases
 */
export default function ({ text, places, cases }) {
  const pack = new Pack(JSON.parse(text));
  return cases.map(({ where, ball }) => {
    const { total, spots } = nearest(pack, places, where);
    return { total, text: recoveryText(where, spots), step: recoveryStep(where, spots, places, ball) };
  });
}
