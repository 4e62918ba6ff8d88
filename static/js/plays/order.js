/** In which order the plays stand: chosen here, and remembered by this device. */

import { button } from "../ui/dom.js";
import { sayPlays } from "../words/plays-words.js";

/** @typedef {"used" | "name"} Sort */

const SORT = "quintet.plays.sort";

/** @returns {Sort} */
export function keptSort() {
  try {
    return localStorage.getItem(SORT) === "name" ? "name" : "used";
  } catch {
    return "used";
  }
}

/** @param {Sort} sort */
export function keepSort(sort) {
  try {
    localStorage.setItem(SORT, sort);
  } catch {
    // Remembered until the page is closed.
  }
}

/** @param {HTMLElement} root @param {boolean} wanted @param {Sort} now @param {(sort: Sort) => void} choose */
export function drawOrder(root, wanted, now, choose) {
  root.hidden = !wanted;
  root.replaceChildren(.../** @type {Sort[]} */ (["used", "name"]).map((sort) => {
    const made = button("", sayPlays(`sorts.${sort}`), () => choose(sort));
    made.dataset.focus = `sort ${sort}`;
    made.setAttribute("aria-pressed", String(sort === now));
    return made;
  }));
}
