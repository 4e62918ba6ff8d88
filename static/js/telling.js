/** A step in sentences: the action as a whole, and one for each player. */

import { PHRASES } from "./phrases.js";

/**
 * @typedef {import("./wire.js").StepWire} StepWire
 * @typedef {import("./words.js").Words} Words
 */

/** The whole step as one sentence, without its full stop. @param {StepWire} step @param {Words} words */
export function sentenceOf(step, words) {
  return step.say.map((phrase) => words.say("chain", phrase)).join(`, ${PHRASES.then} `);
}

/** What each player does. @param {StepWire} step @param {Words} words */
export function sentencesOf(step, words) {
  return step.who.map(([player, key, given]) => words.say("who", [key, { p: player, ...given }]));
}

/**
 * While a chain is played: what everybody is doing.
 * @param {HTMLElement} root
 * @param {StepWire | undefined} step
 * @param {Words} words
 */
export function drawSentences(root, step, words) {
  const lines = (step ? sentencesOf(step, words) : []).map((sentence) => {
    const li = document.createElement("li");
    li.textContent = sentence;
    return li;
  });
  const all = document.createElement("ul");
  all.className = "telling";
  all.append(...lines);
  root.replaceChildren(all);
}
