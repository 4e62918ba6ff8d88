/** The drawing a coach has closed but not played, kept on this device for each board. */

import { isDraft } from "./draft.js";

/** @typedef {{draft: import("./draft.js").Draft, of: string}} Kept  of: text form of the step it changes, "" for none */

const KEY = "quintet.byhand.";

/** @param {string} board  its id @param {Kept | null} kept  null: there is nothing to keep */
export function keepDraft(board, kept) {
  try {
    if (kept) localStorage.setItem(KEY + board, JSON.stringify(kept));
    else localStorage.removeItem(KEY + board);
  } catch {
    // A private window keeps nothing; it stays for as long as it is open.
  }
}

/** @param {string} board @returns {Kept | null} */
export function keptDraft(board) {
  try {
    const found = JSON.parse(localStorage.getItem(KEY + board) ?? "null");
    return found && isDraft(found.draft) ? { draft: found.draft, of: String(found.of ?? "") } : null;
  } catch {
    return null;
  }
}
