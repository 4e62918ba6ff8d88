/** Name, note and tags of a play, and when it is called, to be written. */

import { button, line, make } from "../ui/dom.js";
import { sayPlays } from "../words/plays-words.js";
import { OCCASIONS } from "./bench-row.js";
import { NAME_MAX, NOTE_MAX, readTags } from "./search.js";

/**
 * @typedef {import("./store.js").Called} Called
 */

/**
 * @param {object} given
 * @param {Called} given.now
 * @param {string[]} given.tags  those of other plays, to be added by a tap
 * @param {string} given.word  on the button that takes it
 * @param {(called: Called) => void} given.done
 * @param {() => void} given.dropped
 */
export function calledForm({ now, tags, word, done, dropped }) {
  const form = make("form", "called-form");
  const name = line(sayPlays("name"), now.name, { most: NAME_MAX });
  name.input.enterKeyHint = "done";
  const note = make("textarea");
  note.value = now.note;
  note.maxLength = NOTE_MAX;
  note.rows = 2;
  note.placeholder = sayPlays("note_hint");
  const written = line(sayPlays("tags"), now.tags.join(", "), { most: 400, hint: sayPlays("tags_hint") });
  written.input.enterKeyHint = "done";
  written.input.autocapitalize = "off";
  const chips = make("p", "chips");
  const offered = () => {
    const own = readTags(written.input.value);
    const add = (/** @type {string} */ tag) => {
      written.input.value = [...readTags(written.input.value), tag].join(", ");
      offered();
    };
    chips.replaceChildren(...tags.filter((tag) => !own.includes(tag)).slice(0, 8).map((tag) => button("chip", `+ ${tag}`, () => add(tag), tag)));
    chips.hidden = !chips.childElementCount;
  };
  written.input.addEventListener("input", offered);
  offered();
  const when = make("select", "", ...OCCASIONS.map((occasion) => new Option(sayPlays(`occasions.${occasion || "any"}`), occasion)));
  when.value = now.occasion;
  const wrong = make("p", "wrong");
  wrong.setAttribute("role", "alert");
  const take = make("button", "primary", word);
  const drop = button("plain", sayPlays("not_now"), dropped);
  form.append(name.whole, make("label", "line", make("span", "", sayPlays("note")), note), written.whole, chips,
    make("label", "line", make("span", "", sayPlays("occasion")), when), wrong, make("p", "ways", take, drop));
  form.noValidate = true;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const called = { name: name.input.value.trim().replace(/\s+/g, " "), note: note.value.trim(), tags: readTags(written.input.value), occasion: when.value };
    if (called.name) return done(called);
    wrong.textContent = sayPlays("needs_name");
    name.input.focus();
  });
  return {
    form,
    /** Ready to be written over. */
    focus() {
      name.input.focus();
      name.input.select();
    },
  };
}
