/** The menu: what is set once and seldom changed. A dialog of the page, filled when it is opened. */

import { button, choose, heading, make } from "./elements.js";
import { reportPart } from "./report.js";
import { rulesPart } from "./rules.js";
import { PHRASES } from "../words/phrases.js";

/**
 * @typedef {import("../device/prefs.js").Prefs} Prefs
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../words/words.js").Words} Words
 *
 * @typedef {object} MenuHandlers
 * @property {(setup: import("../board/desk.js").Setup) => void} setup
 * @property {(patch: Partial<Prefs>) => void} prefer
 * @property {() => void} fresh
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
  const court = choose(PHRASES.courtChoice, choices.courts, board.court, words.court, (court) => handlers.setup({ court }));
  const level = choose(PHRASES.level, levels.map(String), String(board.level),
      (level) => PHRASES.levelOf(Number(level), Number(level) === levels[0], Number(level) === levels[levels.length - 1]),
      (level) => handlers.setup({ level: Number(level) }));
  const report = reportPart(board.id, words);
  const away = make("p", "hint away", PHRASES.needsServer);
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
    choose(PHRASES.theme, ["auto", "day", "gym"], prefs.theme, (theme) => Reflect.get(PHRASES.themes, theme),
      (theme) => handlers.prefer({ theme: /** @type {Prefs["theme"]} */ (theme) })),
    choose(PHRASES.hand, ["right", "left"], prefs.left ? "left" : "right", (hand) => Reflect.get(PHRASES.hands, hand),
      (hand) => handlers.prefer({ left: hand === "left" })),
    names(prefs, handlers.prefer, hasSquad),
    fresh(() => {
      dialog.close();
      handlers.fresh();
    }),
    ready(),
  );
  dialog.setAttribute("aria-label", PHRASES.menu);
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
    name.setAttribute("aria-label", PHRASES.nameOf(number));
    name.addEventListener("change", () => {
      names[number] = name.value.trim();
      prefer({ names: { ...names } });
    });
    fields.append(make("label", "named", make("b", "", String(number)), name));
  }
  const toggle = make("label", "answer", input, make("span", "", PHRASES.names));
  const hint = ofSquad ? PHRASES.namesOfSquad : PHRASES.namesHint;
  return make("div", "ask", make("div", "answers", toggle), ...(ofSquad ? [] : [fields]), make("p", "hint", hint));
}

/** @param {() => void} begin */
function fresh(begin) {
  return make("div", "ask", button("plain", PHRASES.fresh, begin), make("p", "hint", PHRASES.freshHint));
}

/** The way to the page that tells whether this device is ready. */
function ready() {
  const way = make("a", "plain", PHRASES.check);
  way.href = "/check";
  return make("div", "ask", way, make("p", "hint", PHRASES.checkHint));
}
