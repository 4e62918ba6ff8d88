/** The drawing a coach has closed but not played, kept on this device for each board. */

import { isDraft } from "./draft.js";

const KEY = "quintet.byhand.";

/** @param {string} board  its id @param {import("./draft.js").Draft | null} draft  null: there is nothing to keep */
export function keepDraft(board, draft) {
  try {
    if (draft) localStorage.setItem(KEY + board, JSON.stringify(draft));
    else localStorage.removeItem(KEY + board);
  } catch {
    // A private window keeps nothing; it stays for as long as the page is open.
  }
}

/** @param {string} board @returns {import("./draft.js").Draft | null} */
export function keptDraft(board) {
  try {
    const found = JSON.parse(localStorage.getItem(KEY + board) ?? "null");
    return isDraft(found) ? found : null;
  } catch {
    return null;
  }
}
