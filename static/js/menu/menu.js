/** The menu: what is set once and seldom changed. A dialog of the page, filled when it is opened. */

import { choose, heading, make } from "./elements.js";
import { reportPart } from "./report.js";
import { rulesPart } from "./rules.js";
import { sayBoard, sayLevelOf } from "../words/board-words.js";

/**
 * @typedef {import("../device/prefs.js").Prefs} Prefs
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} MenuHandlers
 * @property {(setup: import("../board/desk.js").Setup) => void} setup
 * @property {(patch: Partial<Prefs>) => void} prefer
 */

/**
 * @param {HTMLDialogElement} dialog
 * @param {State} state
 * @param {Prefs} prefs
 * @param {Words} words
 * @param {MenuHandlers} handlers
 * @returns {(now: State) => void}  call it when the board has changed
 */
export function openMenu(dialog, state, prefs, words, handlers) {
  const { board, choices, squad, bench } = state;
  const levels = choices.levels;
  const rules = rulesPart(state, words, handlers.setup);
  const hasSquad = bench.length > 0 || Object.values(squad).some(Boolean);
  const court = choose(sayBoard("court_choice"), choices.courts, board.court, words.court, (court) => handlers.setup({ court }));
  const level = choose(sayBoard("level"), levels.map(String), String(board.level),
      (level) => sayLevelOf(Number(level), Number(level) === levels[0], Number(level) === levels[levels.length - 1]),
      (level) => handlers.setup({ level: Number(level) }));
  const report = reportPart(board.id, words);
  const away = make("p", "hint away", sayBoard("needs_server"));
  /** What the server alone can do is out of reach without it, and says so. @param {State} now */
  const reach = (now) => {
    away.hidden = now.link === "live";
    for (const part of [rules.element, court, level, report]) part.inert = now.link !== "live";
  };
  reach(state);
  dialog.replaceChildren(
    heading(board.name, () => dialog.close()),
    away,
    rules.element,
    court,
    level,
    report,
    choose(sayBoard("theme"), ["auto", "day", "gym"], prefs.theme, (theme) => sayBoard(`themes.${theme}`),
      (theme) => handlers.prefer({ theme: /** @type {Prefs["theme"]} */ (theme) })),
    choose(sayBoard("hand"), ["right", "left"], prefs.left ? "left" : "right", (hand) => sayBoard(`hands.${hand}`),
      (hand) => handlers.prefer({ left: hand === "left" })),
    names(prefs, handlers.prefer, hasSquad),
    ready(),
  );
  dialog.setAttribute("aria-label", sayBoard("menu"));
  dialog.showModal();
  return (now) => {
    rules.update(now);
    reach(now);
  };
}

/** @param {Prefs} prefs @param {MenuHandlers["prefer"]} prefer @param {boolean} ofSquad  the squad has names of its own */
function names(prefs, prefer, ofSquad) {
  const input = document.createElement("input");
  input.type = "checkbox";
  input.checked = prefs.named;
  const fields = make("div", "names");
  fields.hidden = !prefs.named;
  input.addEventListener("change", () => {
    fields.hidden = !input.checked;
    prefer({ named: input.checked });
  });
  const names = { ...prefs.names };
  for (const number of [1, 2, 3, 4, 5]) {
    const name = document.createElement("input");
    name.maxLength = 12;
    name.autocomplete = "off";
    name.value = names[number] ?? "";
    name.setAttribute("aria-label", sayBoard("name_of", { n: number }));
    name.addEventListener("change", () => {
      names[number] = name.value.trim();
      prefer({ names: { ...names } });
    });
    fields.append(make("label", "named", make("b", "", String(number)), name));
  }
  const toggle = make("label", "answer", input, make("span", "", sayBoard("names")));
  const hint = ofSquad ? sayBoard("names_of_squad") : sayBoard("names_hint");
  return make("div", "ask", make("div", "answers", toggle), ...(ofSquad ? [] : [fields]), make("p", "hint", hint));
}

/** The way to the page that tells whether this device is ready. */
function ready() {
  const way = make("a", "plain", sayBoard("check"));
  way.href = "/check";
  return make("div", "ask", way, make("p", "hint", sayBoard("check_hint")));
}
