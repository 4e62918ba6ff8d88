/** Small parts of the menu, and how it asks the server. */

import { sayBoard } from "../words/board-words.js";

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name
 * @param {string} kind
 * @param {(Node | string)[]} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function make(name, kind, ...children) {
  const made = document.createElement(name);
  if (kind) made.className = kind;
  made.append(...children);
  return made;
}

/** @param {string} kind @param {string} word @param {() => void} act */
export function button(kind, word, act) {
  const made = make("button", kind, word);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}

/** @param {string} name @param {() => void} close */
export function heading(name, close) {
  return make("header", "", make("h2", "", name), button("primary", sayBoard("close"), close));
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
export function choose(question, values, now, word, chosen, hint) {
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

/** What the server says at this address. Rejected where it says nothing, or not now. @param {string} path @returns {Promise<any>} */
export async function fetched(path) {
  const answer = await fetch(`/api/${path}`);
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}
