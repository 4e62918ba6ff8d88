/** The words beside the court: the player's own sentence, the others', and the chain as a list. */

import { isScript } from "../steps/drawn-text.js";
import { sayViewer, sayCall, sayStarts, sayYouStart } from "../words/viewer-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("../state/wire.js").StepWire} StepWire
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} Said
 * @property {string} mine  "" while nobody has been chosen
 * @property {string[]} others
 */

/** Sentences of standing where one is: told last. */
const STANDING = new Set(["stay", "wait", "script_stays"]);

/**
 * What a step means for this player, and for the others: those with the ball first, those who stand last.
 * @param {StepWire} step
 * @param {number | null} me
 * @param {Words} words
 * @param {boolean} own  it is the player's own part, so they are spoken to
 * @returns {Said}
 */
export function sayStep(step, me, words, own) {
  const actors = [...step.say].reverse().flatMap(([, { p, m }]) => [p, m]);
  const rank = (/** @type {StepWire["who"][0]} */ [player, key]) =>
    STANDING.has(key) ? 99 : actors.includes(player) ? actors.indexOf(player) : 50;
  const others = step.who.filter(([player]) => player !== me).sort((a, b) => rank(a) - rank(b));
  return {
    mine: sayPart(step, me, words, own),
    others: [
      ...callsFor(step, words),
      ...others.map(([player, key, given]) => words.say("who", [key, { ...given, p: player }])),
    ],
  };
}

/** What one player does in a step. @param {StepWire} step @param {number | null} me @param {Words} words @param {boolean} own */
function sayPart(step, me, words, own) {
  const part = step.who.find(([player]) => player === me);
  return part ? words.say(own ? "you" : "who", [part[1], { ...part[2], p: part[0] }]) : "";
}

/** What the team calls and shows by hand for a step. @param {StepWire} step @param {Words} words @returns {string[]} */
function callsFor(step, words) {
  return step.a.flatMap((action) => {
    const { call, signal } = words.call(action);
    return call || signal ? [sayCall(call, signal)] : [];
  });
}

/**
 * Where everybody stands before the first action: where it begins, if that is drawn.
 * @param {Standing} start
 * @param {StepWire | undefined} first
 * @returns {Standing}
 */
export function startOf(start, first) {
  return first && isScript(first) ? { ...start, off: first.from, ball: first.has ?? 0 } : start;
}

/** Where a player stands; "" where that is no spot. @param {Standing} standing @param {number} player @param {Words} words */
export function placeOf(standing, player, words) {
  return standing.off ? "" : words.at(standing.at[player]);
}

/**
 * The same before the first action.
 * @param {Standing} start
 * @param {number | null} me
 * @param {Words} words
 * @param {boolean} own  as in `sayStep`
 * @returns {Said}
 */
export function sayStart(start, me, words, own) {
  const starts = (/** @type {number} */ player) => {
    const at = placeOf(start, player, words) || sayViewer("as_drawn");
    const ball = player === start.ball;
    return own && player === me ? sayYouStart(at, ball) : sayStarts(words.player(player), at, ball);
  };
  const players = Object.keys(start.at).map(Number);
  const mine = players.find((player) => player === me);
  return { mine: mine ? starts(mine) : "", others: players.filter((player) => player !== me).map(starts) };
}

/**
 * @typedef {{part: string, chain: string}} Row  what the chosen player does, "" for nobody; and the step itself
 * @param {StepWire[]} steps
 * @param {Said} start
 * @param {number | null} me @param {Words} words @param {boolean} own
 * @returns {Row[]}
 */
export function chainRows(steps, start, me, words, own) {
  return [
    { part: start.mine, chain: sayViewer("start") },
    ...steps.map((step) => ({ part: sayPart(step, me, words, own), chain: chainWords(step, words) })),
  ];
}

/** A step in the chain's words. @param {StepWire} step @param {Words} words */
export function chainWords(step, words) {
  return listed(step.say.map((phrase) => words.say("chain", phrase)), "then");
}

/**
 * Show what is said. The live region speaks up only when the words change.
 * @param {HTMLElement} mine
 * @param {HTMLElement} others
 * @param {Said} said
 */
export function showSaid(mine, others, said) {
  if (mine.textContent !== said.mine) mine.textContent = said.mine;
  mine.hidden = !said.mine;
  others.classList.toggle("equal", !said.mine);
  // With a player chosen, his sentence is what is spoken; the others' are there to be read.
  others.setAttribute("aria-live", said.mine ? "off" : "polite");
  const joined = said.others.join(" ");
  if (others.dataset.said === joined) return;
  others.dataset.said = joined;
  others.replaceChildren(...said.others.flatMap((sentence) => [element("span", sentence), " "]));
}

/**
 * The chain as a list of buttons, the start first. Rows that are the same stay the same elements.
 * @param {HTMLOListElement} list
 * @param {Row[]} rows
 */
export function showChain(list, rows) {
  const focused = list.contains(document.activeElement);
  while (list.children.length > rows.length) list.lastElementChild?.remove();
  if (focused && !list.contains(document.activeElement)) list.lastElementChild?.querySelector("button")?.focus();
  rows.forEach((row, i) => {
    let item = list.children[i];
    if (!item) {
      const button = element("button", "");
      button.append(element("span", "", "part"), element("span", "", "chain"));
      button.setAttribute("type", "button");
      button.dataset.depth = String(i);
      item = element("li", "");
      item.append(button);
      list.append(item);
    }
    for (const name of /** @type {const} */ (["part", "chain"])) {
      const line = /** @type {HTMLElement} */ (item.querySelector(`.${name}`));
      if (line.textContent !== row[name]) line.textContent = row[name];
      line.hidden = !row[name];
    }
  });
}

/**
 * Mark the row of the step on show, and bring it into sight inside its own list only.
 * @param {HTMLElement} list
 * @param {number} depth
 * @param {boolean} smooth
 */
export function markChain(list, depth, smooth) {
  [...list.children].forEach((item, i) => {
    if (i === depth) item.firstElementChild?.setAttribute("aria-current", "step");
    else item.firstElementChild?.removeAttribute("aria-current");
  });
  const row = list.children[depth];
  const frame = /** @type {HTMLElement | null} */ (list.closest(".rows"));
  if (!(row instanceof HTMLElement) || !frame) return;
  const middle = row.offsetTop - (frame.clientHeight - row.offsetHeight) / 2;
  frame.scrollTo({ top: Math.max(0, middle), behavior: smooth ? "smooth" : "auto" });
}

/** @param {string} name @param {string} text @param {string} [kind] */
function element(name, text, kind = "") {
  const made = document.createElement(name);
  made.textContent = text;
  made.className = kind;
  return made;
}
