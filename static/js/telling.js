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
 * What everybody does in a step, as a list to show.
 * @param {StepWire | undefined} step
 * @param {Words} words
 * @param {string} [heading]
 * @returns {HTMLElement[]}
 */
export function tellingOf(step, words, heading = "") {
  if (!step) return [];
  const section = document.createElement("section");
  section.className = heading ? "telling after" : "telling";
  if (heading) section.append(Object.assign(document.createElement("h3"), { textContent: heading }));
  const list = document.createElement("ul");
  for (const sentence of sentencesOf(step, words)) {
    list.append(Object.assign(document.createElement("li"), { textContent: sentence }));
  }
  section.append(list);
  return [section];
}
