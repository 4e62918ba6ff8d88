/** The team's own words: a call and a hand signal for each action. Saved as soon as a line is left. */

import { ask } from "./team-api.js";
import { button, make, select } from "../ui/dom.js";
import { sentenceOf } from "./frame.js";
import { sayTeam } from "../words/team-words.js";
import { action, order } from "./say.js";
import { capital } from "../words/sayer.js";

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
    state.textContent = sayTeam("calls_wait");
    state.classList.remove("wrong");
    try {
      await ask("PUT", "team/calls", calls);
      kept = true;
      team.calls = structuredClone(calls);
      state.textContent = sayTeam("calls_saved");
    } catch (error) {
      state.classList.add("wrong");
      state.replaceChildren(sayTeam("dirty_why", { why: sentenceOf(error) }), " ", button("plain small", sayTeam("again"), save));
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
      field("call", sayTeam("call_word"), sayTeam("call_of", { action: word })), field("signal", sayTeam("signal"), sayTeam("signal_of", { action: word })));
  });
  const element = make("div", "column", ...languageChoice(team, state),
    make("h2", "", sayTeam("words_title")), make("p", "lead-in", sayTeam("words_lead")), state, make("ul", "wordlist", ...rows));
  return { element, title: sayTeam("tabs.words"), key: "words", unsaved: () => !kept };
}

/**
 * What the team is spoken to in, where there is a choice. The page begins again in what is chosen.
 * @param {import("./team-api.js").TeamData} team @param {HTMLElement} state  says how saving goes
 */
function languageChoice(team, state) {
  if (team.languages.length < 2) return [];
  const change = async (/** @type {string} */ tag) => {
    try {
      await ask("PUT", "team/language", { language: tag });
      location.reload();
    } catch (error) {
      state.replaceChildren(sentenceOf(error));
    }
  };
  const options = [["", sayTeam("language_each")], ...team.languages];
  return [select(sayTeam("language"), /** @type {[string, string][]} */ (options), team.language, change)];
}
