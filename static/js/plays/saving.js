/** Saving the chain on the board: as a new play, or as the main line of the play it is. */

import { button, make } from "../ui/dom.js";
import { occasionOf } from "./bench-row.js";
import { calledForm } from "./form.js";
import { sayPlays } from "../words/plays-words.js";

/**
 * @typedef {import("./apply.js").Play} Play
 * @typedef {import("./store.js").Called} Called
 */

/**
 * @param {object} given
 * @param {Play | null} given.play  the chain on the board, where it is among the plays
 * @param {boolean} given.same  what is on the board is its main line already
 * @param {string} given.name  offered for a new play
 * @param {string[]} given.tags
 * @param {(called: Called) => void} given.asNew
 * @param {() => void} given.asLine
 */
export function openSaving({ play, same, name, tags, asNew, asLine }) {
  const dialog = make("dialog", "menu saving-dialog");
  dialog.setAttribute("aria-label", sayPlays("save_play"));
  const close = () => dialog.close();
  dialog.addEventListener("close", () => dialog.remove());
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog) close();
  });
  const { form, focus } = calledForm({
    now: play ? { name, note: play.note, tags: play.tags, occasion: occasionOf(play) } : { name, note: "", tags: [], occasion: "" },
    tags,
    word: play ? sayPlays("save_new") : sayPlays("save"),
    done: (called) => (close(), asNew(called)),
    dropped: close,
  });
  dialog.append(make("h2", "asked", sayPlays("save_play")));
  if (play && same) dialog.append(make("p", "hint", sayPlays("is_saved", { name: play.name })));
  const take = button("primary", sayPlays("save_line"), () => (close(), asLine()));
  if (play && !same) {
    dialog.append(make("p", "ways", take), make("p", "hint", sayPlays("save_line_hint", { name: play.name })), make("hr"));
    form.classList.add("second");
  }
  dialog.append(form);
  document.body.append(dialog);
  dialog.showModal();
  if (play && !same) take.focus();
  else focus();
}
