/** What a pack offers in each of these positions, and whether it has them the other way round. */

import { menu } from "../../../static/js/pack/offers.js";
import { Pack } from "../../../static/js/pack/pack.js";

/**
 * @param {object} given
 * @param {string} given.text  the pack, as it is sent
 * @param {{standing: import("../../../static/js/state/wire.js").Standing, terms: import("../../../static/js/pack/offers.js").Terms}[]} given.cases
 */
export default function ({ text, cases }) {
  const pack = new Pack(JSON.parse(text));
  return cases.map(({ standing, terms }) => ({ menu: menu(pack, standing, terms), turned: pack.find(standing)?.turned }));
}
