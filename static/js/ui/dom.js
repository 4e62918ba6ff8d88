/** Small helpers to make the page's elements. Nothing here knows what a page is about. */

import { svg } from "../court/court.js";

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name
 * @param {string} [kind]  class
 * @param {(Node | string)[]} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function make(name, kind = "", ...children) {
  const made = document.createElement(name);
  if (kind) made.className = kind;
  made.append(...children);
  return made;
}

/**
 * @param {string} kind
 * @param {string | Node} label
 * @param {() => void} act
 * @param {string} [spoken]  for a screen reader, where the label alone says too little
 */
export function button(kind, label, act, spoken = "") {
  const made = make("button", kind, label);
  made.type = "button";
  if (spoken) made.setAttribute("aria-label", spoken);
  made.addEventListener("click", act);
  return made;
}

/** @param {string} kind @param {string | Node} label @param {string} href */
export function anchor(kind, label, href) {
  const made = make("a", kind, label);
  made.href = href;
  return made;
}

/** Line drawings of our own, 24 by 24. */
const DRAWINGS = {
  undo: ["M8.5 4.5 4 9l4.5 4.5", "M4 9h10a5.2 5.2 0 0 1 0 10.4H9"],
  redo: ["M15.5 4.5 20 9l-4.5 4.5", "M20 9H10a5.2 5.2 0 0 0 0 10.4h5"],
  again: ["M4.5 12a7.5 7.5 0 1 0 2.4-5.5", "M4.2 3.4v4.4h4.4", "M10.2 8.6v6.8l5.2-3.4z"],
  up: ["M6 14.5 12 8l6 6.5"],
  down: ["M6 9.5 12 16l6-6.5"],
  grip: ["M5 8.5h14M5 15.5h14"],
  back: ["M14.5 5 7.5 12l7 7"],
};

/** @param {keyof typeof DRAWINGS} name */
export function icon(name) {
  return svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, DRAWINGS[name].map((d) => svg("path", { d })));
}

/**
 * A word that is on or off, large enough for a thumb.
 * @param {string} word
 * @param {boolean} on
 * @param {(on: boolean) => void} changed
 * @param {boolean} [fixed]  cannot be changed
 */
export function tick(word, on, changed, fixed = false) {
  const input = make("input");
  input.type = "checkbox";
  input.checked = on;
  input.disabled = fixed;
  input.addEventListener("change", () => changed(input.checked));
  return make("label", "tick", input, make("span", "", word));
}

let groups = 0;

/**
 * A question with a few answers, one of which holds.
 * @template {string} V
 * @param {string} question
 * @param {readonly (readonly [V, string, string?])[]} answers  value, word, what it means
 * @param {V} now
 * @param {(value: V) => void} chosen
 * @param {string} [kind]
 */
export function choice(question, answers, now, chosen, kind = "choice") {
  const name = `choice-${++groups}`;
  const field = make("fieldset", kind, make("legend", "", question));
  const list = make("div", "answers");
  for (const [value, word, meaning] of answers) {
    const input = make("input");
    input.type = "radio";
    input.name = name;
    input.value = value;
    input.checked = value === now;
    input.addEventListener("change", () => chosen(value));
    const text = make("span", "", make("b", "", word));
    if (meaning) text.append(make("small", "", meaning));
    list.append(make("label", "answer", input, text));
  }
  field.append(list);
  return field;
}

/**
 * @param {string} label
 * @param {readonly (readonly [string, string])[]} options  value and word
 * @param {string} now
 * @param {(value: string) => void} chosen
 * @param {string} [focus]  its name when it is drawn anew
 */
export function select(label, options, now, chosen, focus = "") {
  const box = make("select");
  if (focus) box.dataset.focus = focus;
  for (const [value, word] of options) box.append(new Option(word, value, false, value === now));
  box.addEventListener("change", () => chosen(box.value));
  return make("label", "pick", make("span", "", label), box);
}

/**
 * A line to write in, with its name above it.
 * @param {string} label
 * @param {string} value
 * @param {{most?: number, hint?: string, mode?: string, place?: string}} [how]
 */
export function line(label, value, { most = 40, hint = "", mode = "", place = "" } = {}) {
  const input = make("input");
  input.value = value;
  input.maxLength = most;
  input.autocomplete = "off";
  if (mode) input.inputMode = mode;
  if (place) input.dataset.place = place;
  const whole = make("label", "line", make("span", "", label), input);
  if (hint) whole.append(make("small", "", hint));
  return { whole, input };
}
