/** On what terms a pack is played from: the board's pace, what is taught, and what each of the five may do. */

import { seated } from "../state/roster.js";

/** @param {import("../state/state.js").State} state @returns {import("../pack/offers.js").Terms} */
export function termsOf(state) {
  const { squad } = seated(state);
  /** @type {Record<string, import("../pack/offers.js").Licence>} */
  const licences = {};
  for (const [place, member] of Object.entries(squad)) {
    const licence = member && state.licences[member.id];
    if (licence) licences[place] = licence;
  }
  return { level: state.board.level, installed: state.installed, licences };
}

/** Terms on which everything goes: what has been played once may be played again. @param {number} level */
export const freely = (level) => ({ level, installed: null, licences: {} });
