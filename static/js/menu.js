/** The menu: what is set once and seldom changed. A dialog of the page, filled when it is opened. */

import { PHRASES } from "./phrases.js";

/**
 * @typedef {import("./prefs.js").Prefs} Prefs
 * @typedef {import("./state.js").State} State
 * @typedef {import("./words.js").Words} Words
 *
 * @typedef {object} MenuHandlers
 * @property {(setup: {formation?: string, court?: string, level?: number}) => void} setup
 * @property {(patch: Partial<Prefs>) => void} prefer
 * @property {() => void} fresh
 */

/**
 * @param {HTMLDialogElement} dialog
 * @param {State} state
 * @param {Prefs} prefs
 * @param {Words} words
 * @param {MenuHandlers} handlers
 */
export function openMenu(dialog, state, prefs, words, handlers) {
  const { board, choices } = state;
  const levels = choices.levels;
  dialog.replaceChildren(
    heading(board.name, () => dialog.close()),
    choose(PHRASES.formation, choices.formations, board.formation, words.formation,
      (formation) => handlers.setup({ formation }), PHRASES.formationHint),
    choose(PHRASES.courtChoice, choices.courts, board.court, words.court, (court) => handlers.setup({ court })),
    choose(PHRASES.level, levels.map(String), String(board.level),
      (level) => PHRASES.levelOf(Number(level), Number(level) === levels[0], Number(level) === levels[levels.length - 1]),
      (level) => handlers.setup({ level: Number(level) })),
    choose(PHRASES.theme, ["auto", "day", "gym"], prefs.theme, (theme) => Reflect.get(PHRASES.themes, theme),
      (theme) => handlers.prefer({ theme: /** @type {Prefs["theme"]} */ (theme) })),
    names(prefs, handlers.prefer),
    fresh(() => {
      dialog.close();
      handlers.fresh();
    }),
  );
  dialog.setAttribute("aria-label", PHRASES.menu);
  dialog.showModal();
}

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name
 * @param {string} kind
 * @param {(Node | string)[]} children
 * @returns {HTMLElementTagNameMap[K]}
 */
function make(name, kind, ...children) {
  const made = document.createElement(name);
  made.className = kind;
  made.append(...children);
  return made;
}

/** @param {string} name @param {() => void} close */
function heading(name, close) {
  const done = make("button", "primary", PHRASES.close);
  done.type = "button";
  done.addEventListener("click", close);
  return make("header", "", make("h2", "", name), done);
}

/**
 * A question with a few answers side by side.
 * @param {string} question
 * @param {string[]} values
 * @param {string} now
 * @param {(value: string) => string} word
 * @param {(value: string) => void} chosen
 * @param {string} [hint]
 */
function choose(question, values, now, word, chosen, hint) {
  const field = make("fieldset", "ask", make("legend", "", question));
  const answers = make("div", "answers");
  for (const value of values) {
    const input = document.createElement("input");
    input.type = "radio";
    input.name = question;
    input.value = value;
    input.checked = value === now;
    input.addEventListener("change", () => chosen(value));
    answers.append(make("label", "answer", input, make("span", "", word(value))));
  }
  field.append(answers);
  if (hint) field.append(make("p", "hint", hint));
  return field;
}

/** @param {Prefs} prefs @param {MenuHandlers["prefer"]} prefer */
function names(prefs, prefer) {
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
  return make("div", "ask", make("div", "answers", toggle), fields, make("p", "hint", PHRASES.namesHint));
}

/** @param {() => void} begin */
function fresh(begin) {
  const button = make("button", "plain", PHRASES.fresh);
  button.type = "button";
  button.addEventListener("click", begin);
  return make("div", "ask", button, make("p", "hint", PHRASES.freshHint));
}
