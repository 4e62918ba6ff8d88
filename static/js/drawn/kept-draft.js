/** The drawing a coach has closed but not played, kept on this device for each board. */

import { isDraft } from "./drawing.js";

/** @typedef {{draft: import("./drawing.js").Draft, of: string}} KeptDraft  of: text form of the step it changes, "" for none */

const KEY = "quintet.byhand.";
/** Where nothing can be kept (a private window): for as long as the page is open. @type {Map<string, string>} */
const loose = new Map();

/** @param {string} board  its id @param {KeptDraft | null} kept  null: there is nothing to keep */
export function keepDraft(board, kept) {
  if (kept) loose.set(board, JSON.stringify(kept));
  else loose.delete(board);
  try {
    if (kept) localStorage.setItem(KEY + board, JSON.stringify(kept));
    else localStorage.removeItem(KEY + board);
  } catch {
    // It is held here.
  }
}

/** @param {string} board @returns {KeptDraft | null} */
export function keptDraft(board) {
  try {
    const found = JSON.parse(read(board) ?? "null");
    return found && isDraft(found.draft) ? { draft: found.draft, of: String(found.of ?? "") } : null;
  } catch {
    return null;
  }
}

/** @param {string} board */
function read(board) {
  try {
    return localStorage.getItem(KEY + board);
  } catch {
    return loose.get(board);
  }
}
