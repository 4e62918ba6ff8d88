/** A step in sentences: the action as a whole, the team's call for it, and one for each player. */

import { sayCallIt, sayCalled } from "../words/general-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("../state/wire.js").StepWire} StepWire
 * @typedef {import("../words/speaker.js").Words} Words
 */

/** The whole step as one sentence, without its full stop. @param {StepWire} step @param {Words} words */
export function sentenceOf(step, words) {
  return listed(step.say.map((phrase) => words.say("chain", phrase)), "then");
}

/** One part an action, each with the team's own word for it: the cutter's choice, where there is one, comes first. @param {StepWire} step @param {Words} words */
export function calledParts(step, words) {
  return step.say.map((phrase, i) => sayCalled(words.say("chain", phrase), words.call(step.a[i] ?? "").call));
}

/** The whole step with the team's own word for each action. @param {StepWire} step @param {Words} words */
export function calledOf(step, words) {
  return listed(calledParts(step, words), "then");
}

/** What each player does. @param {StepWire} step @param {Words} words */
export function sentencesOf(step, words) {
  return step.who.map(([player, key, given]) => words.say("who", [key, { p: player, ...given }]));
}

/** What is called and shown by hand: "Call “Go”, fist up." @param {StepWire} step @param {Words} words @returns {string[]} */
export function callsOf(step, words) {
  return step.a.flatMap((action) => {
    const { call, signal } = words.call(action);
    return call || signal ? [sayCallIt(call, signal)] : [];
  });
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
  const line = (/** @type {string} */ sentence, kind = "") =>
    list.append(Object.assign(document.createElement("li"), { textContent: sentence, className: kind }));
  for (const sentence of callsOf(step, words)) line(sentence, "called");
  for (const sentence of sentencesOf(step, words)) line(sentence);
  section.append(list);
  return [section];
}
