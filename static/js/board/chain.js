/** The chain so far, read like a sentence: "1 passes to 2, then 1 fills the left corner, then …". */

import { svg } from "../court/court.js";
import { sayBoard, sayFork } from "../words/board-words.js";
import { listed } from "../words/sayer.js";
import { calledParts } from "./step-sentences.js";

/**
 * @typedef {import("../state/wire.js").StepWire} StepWire
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} Fork  where a chain has been gone on with in more than one way
 * @property {number} depth  how many steps come before
 * @property {{line: string[][], say: import("../state/wire.js").Phrase[], steps: number}[]} others  the ways that are not on
 *   the board: their steps from the start, the phrases of the first that differs, how many steps
 */

/**
 * @param {HTMLElement} root  an ordered list
 * @param {StepWire[]} steps
 * @param {string} start  what stands before the first action
 * @param {Words} words
 * @param {(depth: number) => void} go  to the step of this number (0: before the first)
 * @param {Fork[]} [forks]
 * @param {(fork: Fork, by: HTMLElement) => void} [turn]  where a mark of a fork was tapped
 * @param {StepWire[]} [ahead]  the steps that come next if the chain goes on as before, the next one first
 * @param {(count: number) => void} [on]  play so many of them
 */
export function drawChain(root, steps, start, words, go, forks = [], turn = () => {}, ahead = [], on = () => {}) {
  const items = [item([start], "begin", () => go(0))];
  steps.forEach((step, i) => {
    items.push(item(calledParts(step, words), "action", () => go(i + 1)));
  });
  /** Beside the action that was chosen there; after the last one where nothing is chosen yet. */
  const marked = items.map((li, i) => {
    const here = forks.filter(({ depth }) => depth <= steps.length && i === Math.min(depth + 1, steps.length));
    return [li, ...here.map((fork) => mark(fork, turn))];
  });
  const again = ahead.map((step, i) => item(calledParts(step, words), "undone", () => on(i + 1), (words) => sayBoard("play_again", { words })));
  root.style.setProperty("--then", JSON.stringify(sayBoard("then")));
  root.replaceChildren(...marked.flat(), ...again);
}

/** @param {string[]} parts  the last one leads @param {string} kind @param {() => void} tap @param {(words: string) => string} [does] */
function item(parts, kind, tap, does = (words) => sayBoard("go_to", { words })) {
  const text = listed(parts, "then");
  const li = document.createElement("li");
  li.className = kind;
  const button = document.createElement("button");
  button.type = "button";
  button.append(...(parts.length > 1 ? led(parts, text) : parts));
  button.setAttribute("aria-label", does(text));
  button.addEventListener("click", tap);
  li.append(button);
  return li;
}

/**
 * The action large, and above nothing but itself the cutter's choice that came with it, small. Read aloud, or copied, it
 * is the whole sentence.
 * @param {string[]} parts @param {string} text  all of them as one sentence
 */
function led(parts, text) {
  const lead = parts[parts.length - 1];
  const between = text.slice(parts[0].length, text.length - lead.length);
  const make = (/** @type {"b" | "small" | "span"} */ name, /** @type {string} */ words) => Object.assign(document.createElement(name), { textContent: words });
  const joint = make("span", between);
  joint.className = "unseen";
  return text.endsWith(lead) && text.startsWith(parts[0]) ? [make("small", parts[0]), joint, make("b", lead)] : [text];
}

/** A tick where the chain branches, with the number of other ways. @param {Fork} fork @param {(fork: Fork, by: HTMLElement) => void} turn */
function mark(fork, turn) {
  const li = document.createElement("li");
  li.className = "fork";
  const button = document.createElement("button");
  button.type = "button";
  button.className = "tick";
  button.append(
    svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, [
      svg("path", { d: "M4 12h5.5c4 0 3.5-6 8-6M9.5 12c4 0 3.5 6 8 6" }),
      svg("path", { class: "solid", d: "M16.5 3.4v5.2l4-2.6zM16.5 15.4v5.2l4-2.6z" }),
    ]),
    String(fork.others.length),
  );
  button.setAttribute("aria-label", sayFork(fork.others.length));
  button.setAttribute("aria-haspopup", "dialog");
  button.addEventListener("click", () => turn(fork, button));
  li.append(button);
  return li;
}

/**
 * Mark the action being looked at and bring it into view.
 * @param {HTMLElement} root
 * @param {number} depth
 */
export function markChain(root, depth) {
  const items = [...root.children].filter((li) => !li.classList.contains("fork"));
  const now = items[depth];
  items.forEach((li, i) => {
    const button = li.firstElementChild;
    if (li === now) button?.setAttribute("aria-current", "step");
    else button?.removeAttribute("aria-current");
    li.classList.toggle("ahead", i > depth);
  });
  if (!(now instanceof HTMLElement)) return;
  // A fork beside it is to be seen as well.
  const next = now.nextElementSibling;
  const end = next instanceof HTMLElement && next.classList.contains("fork") ? next : now;
  const left = end.offsetLeft + end.offsetWidth - root.clientWidth + 40;
  const most = now.offsetLeft - 16;
  root.scrollTo({ left: Math.min(most, Math.max(root.scrollLeft, left)), behavior: "auto" });
}
