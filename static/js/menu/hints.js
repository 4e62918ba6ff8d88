/**
 * Four hints for who coaches on this device for the first time: one sentence each, above the words, over nothing. One
 * goes when the coach does what it says, or at "Next", which the last one does without; all of them go at "Close". Gone once is gone for good.
 */

import { openKept } from "../device/storage.js";
import { button, make } from "../ui/dom.js";
import { sayHints } from "../words/hints-words.js";

/** What is taught, in this order. */
export const HINTS = /** @type {const} */ (["tap", "branch", "play", "share"]);

/** @typedef {typeof HINTS[number]} Hint */

/**
 * @typedef {object} Hints
 * @property {(hint: Hint) => void} learned  the coach has done this
 * @property {(played: string[], next: string[] | undefined) => void} acted  the coach has played an action where the
 *   chain went on with `next`, if it did
 */

/** The first of the hints that is still to be learned. @param {readonly string[]} learned @returns {Hint | undefined} */
export const nextHint = (learned) => HINTS.find((hint) => !learned.includes(hint));

/**
 * @param {HTMLElement} list  the hints stand before it
 * @param {object} device
 * @param {string[] | null} device.learned  what this device remembers; null: nothing yet
 * @param {(learned: string[]) => void} device.remember
 * @returns {Hints}
 */
export function openHints(list, { learned: before, remember }) {
  const learned = new Set(before ?? HINTS);
  const sentence = make("p", "");
  sentence.setAttribute("role", "status");
  const next = button("choice", sayHints("next"), () => learn([nextHint([...learned]) ?? "share"]));
  const close = button("choice", sayHints("close"), () => learn(HINTS));
  const part = make("section", "hints", sentence, make("div", "go-on", next, close));
  part.setAttribute("aria-label", sayHints("name"));

  function show() {
    const hint = nextHint([...learned]);
    if (hint) {
      if (!part.isConnected) list.before(part);
      const i = HINTS.indexOf(hint) + 1;
      sentence.replaceChildren(make("b", "", sayHints("counted", { i, of: HINTS.length })), " ", sayHints(`says.${hint}`));
      // After the last one there is no next.
      const last = HINTS.filter((each) => !learned.has(each)).length === 1;
      if (last && document.activeElement === next) close.focus();
      next.hidden = last;
      document.body.dataset.hint = hint;
    } else {
      // Who went on by the keyboard goes on at the first action.
      const within = part.contains(document.activeElement);
      part.remove();
      delete document.body.dataset.hint;
      if (within) list.querySelector("button")?.focus();
    }
  }

  /** @param {readonly Hint[]} hints */
  function learn(hints) {
    if (!hints.some((hint) => !learned.has(hint))) return;
    for (const hint of hints) learned.add(hint);
    remember([...learned]);
    show();
  }

  if (before) show();
  else {
    // Who has coached here before there were hints knows the board.
    void openKept().then((kept) => kept.allKeys("boards")).then((boards) => {
      if (boards.length) return remember([...HINTS]);
      learned.clear();
      remember([]);
      show();
    }, () => {});
  }

  return {
    learned: (hint) => learn([hint]),
    acted(played, next) {
      if (!learned.has("tap")) learn(["tap"]);
      else if (next && next.join() !== played.join()) learn(["branch"]);
    },
  };
}
