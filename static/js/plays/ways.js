/** Where the chain branches: the other ways from there, each one tap away. */

import { button, make } from "../ui/dom.js";
import { sayPlays } from "../words/plays-words.js";
import { listed } from "../words/sayer.js";
import { sayGeneral } from "../words/general-words.js";

/**
 * @typedef {import("../board/chain.js").Fork} Fork
 * @typedef {import("../words/speaker.js").Words} Words
 */

/**
 * @param {Fork} fork
 * @param {object} given
 * @param {Words} given.words
 * @param {string} given.now  the way the board goes on, "" at the end of the chain
 * @param {(line: string[][]) => boolean} given.isMain
 * @param {boolean} given.nowMain  the board is on the main line
 * @param {(line: string[][]) => void} given.go
 * @param {HTMLElement} given.by  the mark that was tapped
 */
export function openWays(fork, { words, now, isMain, nowMain, go, by }) {
  const dialog = make("dialog", "others");
  dialog.setAttribute("aria-label", sayPlays("fork_title"));
  dialog.addEventListener("close", () => dialog.remove());
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog) dialog.close();
  });
  const list = make("ul");
  if (now) list.append(make("li", "now", make("span", "", now), make("small", "", listed([sayPlays("on_board"), ...(nowMain ? [sayPlays("main_line")] : [])], "facts"))));
  for (const { line, say } of fork.others) {
    const text = listed(say.map((phrase) => words.say("chain", phrase)), "then");
    const facts = listed([sayGeneral("steps", { n: line.length - fork.depth }), ...(isMain(line) ? [sayPlays("main_line")] : [])], "facts");
    const made = button("way", make("span", "", text), () => (dialog.close(), go(line)));
    made.append(make("small", "", facts));
    list.append(make("li", "", made));
  }
  dialog.append(make("h2", "", sayPlays("fork_title")), list, button("plain", sayPlays("close"), () => dialog.close()));
  document.body.append(dialog);
  dialog.showModal();
  place(dialog, by.getBoundingClientRect());
}

/** Under the mark, and within the screen. @param {HTMLElement} dialog @param {DOMRect} by */
function place(dialog, by) {
  const { width } = dialog.getBoundingClientRect();
  dialog.style.left = `${Math.max(8, Math.min(innerWidth - width - 8, by.left - 24))}px`;
  dialog.style.top = `${by.bottom + 6}px`;
  dialog.style.maxHeight = `${Math.max(200, innerHeight - by.bottom - 20)}px`;
}
