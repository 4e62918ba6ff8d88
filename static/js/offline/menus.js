/** What may be tapped, worked out from a pack and kept by position for as long as the terms are the same. */

import { menu } from "../pack/offers.js";
import { positionKey } from "../state/state.js";
import { termsOf } from "./terms.js";

/**
 * @typedef {import("../state/state.js").Menu} Menu
 * @typedef {import("../state/state.js").State} State
 */

/** @returns {(pack: import("../pack/pack.js").Pack, state: State, standing: import("../state/wire.js").Standing) => Menu | null} */
export function keepMenus() {
  let made = { terms: "", pack: /** @type {unknown} */ (null), menus: /** @type {Map<string, Menu | null>} */ (new Map()) };
  return (pack, state, standing) => {
    const terms = termsOf(state);
    const on = JSON.stringify(terms);
    if (made.terms !== on || made.pack !== pack) made = { terms: on, pack, menus: new Map() };
    const key = positionKey(standing);
    const found = made.menus.get(key) ?? menu(pack, standing, terms);
    made.menus.set(key, found);
    return found;
  };
}
