/** The team's own words: a call and a hand signal for each action. Saved as soon as a line is left. */

import { ask } from "./team-api.js";
import { button, capital, make } from "../ui/dom.js";
import { sentenceOf } from "./frame.js";
import { T } from "./phrases.js";
import { action, order } from "./say.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./frame.js").TeamView} TeamView
 * @typedef {import("./team-api.js").Calls} Calls
 */

/** @param {PageContext} context @returns {TeamView} */
export function openCalls(context) {
  const { words, team } = context;
  /** @type {Calls} */
  const calls = structuredClone(team.calls);
  const state = make("p", "callstate");
  state.setAttribute("role", "status");
  let kept = true;
  const save = async () => {
    kept = false;
    state.textContent = T.callsWait;
    state.classList.remove("wrong");
    try {
      await ask("PUT", "team/calls", calls);
      kept = true;
      team.calls = structuredClone(calls);
      state.textContent = T.callsSaved;
    } catch (error) {
      state.classList.add("wrong");
      state.replaceChildren(`${T.dirtyShort}. ${sentenceOf(error)} `, button("plain small", T.again, save));
    }
  };
  const known = order(words, "actions");
  const kinds = [...team.vocabulary.actions, ...team.vocabulary.lane].sort((a, b) => known.indexOf(a) - known.indexOf(b));
  const rows = kinds.map((kind) => {
    const field = (/** @type {"call" | "signal"} */ what, /** @type {string} */ label, /** @type {string} */ spoken) => {
      const input = make("input");
      input.value = calls[kind]?.[what] ?? "";
      input.maxLength = what === "call" ? 30 : 60;
      input.autocomplete = "off";
      input.setAttribute("aria-label", spoken);
      input.addEventListener("change", () => {
        const next = { ...calls[kind], [what]: input.value.trim() };
        if (next.call || next.signal) calls[kind] = next;
        else delete calls[kind];
        void save();
      });
      return make("label", "line", make("span", "", label), input);
    };
    const word = action(words, kind);
    return make("li", "word", make("p", "", make("strong", "", capital(word)), make("small", "", words.table.action_meanings[kind] ?? "")),
      field("call", T.callWord, T.callOf(word)), field("signal", T.signal, T.signalOf(word)));
  });
  const element = make("div", "column", make("h2", "", T.wordsTitle), make("p", "lead-in", T.wordsLead), state, make("ul", "wordlist", ...rows));
  return { element, title: T.tabs.words, key: "words", unsaved: () => !kept };
}
