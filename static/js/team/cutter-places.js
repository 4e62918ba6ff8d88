/** Where a cutter goes who chooses nothing: the first place, and the next one where that is taken. */

import { choice, make } from "../ui/dom.js";
import { sayTeam } from "../words/team-words.js";
import { sendCutter } from "./rule-data.js";
import { cutterPlace, order } from "./say.js";

/**
 * @typedef {import("./rules-page.js").RulesPage} RulesPage
 */

/** After every other place; without any, this. */
const LAST = "near_ball";

/** @param {RulesPage} page @returns {HTMLElement} */
export function cutterPart(page) {
  const { words } = page.context;
  const all = order(words, "cutter_places");
  const places = page.data.cutter?.length ? page.data.cutter : [LAST];
  const answers = all.map((name) => /** @type {[string, string, string]} */ ([name, cutterPlace(words, name), words.table.cutter_place_meanings[name] ?? ""]));
  const made = make("section", "group", make("h3", "", sayTeam("cutter_goes")), make("p", "hint", sayTeam("cutter_goes_hint")));
  // Each place but the last may be taken: then the next one counts.
  for (let at = 0; at <= places.length; at++) {
    const before = places.slice(0, at);
    if (before.includes(LAST)) break;
    const left = answers.filter(([name]) => !before.includes(name));
    const field = choice(at ? sayTeam("cutter_else") : sayTeam("cutter_first"), left, places[at] ?? LAST, (name) => {
      page.draft?.edit((data) => sendCutter(data, [...before, name], LAST));
    }, "choice moves");
    for (const input of field.querySelectorAll("input")) {
      input.dataset.focus = `cutter.${at}.${input.value}`;
      input.disabled = page.readOnly;
    }
    made.append(field);
  }
  const wrong = page.problemAt("cutter");
  if (wrong) made.append(make("p", "wrong", wrong));
  return made;
}
