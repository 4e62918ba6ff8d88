/** The chain so far, read like a sentence: "1 passes to 2, then 1 fills the left corner, then …". */

import { PHRASES } from "./phrases.js";
import { calledOf } from "./telling.js";

/**
 * @typedef {import("./wire.js").StepWire} StepWire
 * @typedef {import("./words.js").Words} Words
 *
 * @typedef {object} Fork  where a chain has been gone on with in more than one way
 * @property {number} depth  how many steps come before
 * @property {{line: string[][], say: import("./wire.js").Phrase[], steps: number}[]} others  the ways that are not on
 *   the board: their steps from the start, the phrases of the first that differs, how many steps
 */

/**
 * @param {HTMLElement} root  an ordered list
 * @param {StepWire[]} steps
 * @param {string} start  what stands before the first action
 * @param {Words} words
 * @param {(depth: number) => void} go  to the step of this number (0: before the first)
 */
export function drawChain(root, steps, start, words, go) {
  const items = [item(start, "begin", () => go(0))];
  steps.forEach((step, i) => {
    items.push(item(calledOf(step, words), "action", () => go(i + 1)));
  });
  root.replaceChildren(...items);
}

/** @param {string} text @param {string} kind @param {() => void} tap */
function item(text, kind, tap) {
  const li = document.createElement("li");
  li.className = kind;
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = text;
  button.setAttribute("aria-label", PHRASES.goTo(text));
  button.addEventListener("click", tap);
  li.append(button);
  return li;
}

/**
 * Mark the action being looked at and bring it into view.
 * @param {HTMLElement} root
 * @param {number} depth
 */
export function markChain(root, depth) {
  const now = root.children[depth];
  for (const li of root.children) {
    const button = li.firstElementChild;
    if (li === now) button?.setAttribute("aria-current", "step");
    else button?.removeAttribute("aria-current");
    li.classList.toggle("later", Array.prototype.indexOf.call(root.children, li) > depth);
  }
  if (!(now instanceof HTMLElement)) return;
  const left = now.offsetLeft + now.offsetWidth - root.clientWidth + 40;
  const most = now.offsetLeft - 16;
  root.scrollTo({ left: Math.min(most, Math.max(root.scrollLeft, left)), behavior: "auto" });
}
