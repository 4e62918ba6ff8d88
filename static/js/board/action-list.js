/**
 * The offers as a list of plain words, complete: one row for each kind of action, its choices side by side,
 * every one a button with the whole sentence as its label.
 */

import { sayBoard, sayMayNot } from "../words/board-words.js";
import { nextMark } from "../court/signs.js";
import { sayGeneral } from "../words/general-words.js";
import { calledOf } from "./step-sentences.js";

/**
 * @typedef {import("../state/wire.js").Offer} Offer
 * @typedef {import("../state/wire.js").Withheld} Withheld
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} Row  offers that differ in one thing only
 * @property {string} key
 * @property {Offer[]} offers
 *
 * @typedef {"m" | "p" | "s" | "d"} Letter
 *
 * @typedef {object} Marked  what is said of an offer beside its words
 * @property {(offer: Offer) => boolean} isNext  the open play goes on with it
 * @property {Set<Offer>} only  it has no place on the court
 */

/** @type {Marked} */
const UNMARKED = { isNext: () => false, only: new Set() };

/** What may tell the choices of a row apart, in the order we look. @type {Letter[]} */
const LETTERS = ["m", "p", "s", "d"];
/** Keys of single actions, by their sign. @type {Partial<Record<import("../state/wire.js").Sign, (offer: Offer, words: Words) => string>>} */
const KEYS = {
  shot: () => "S",
  drive: (offer, words) => (words.direction(String(offer.d)) === words.table.directions?.left ? "Q" : "E"),
};

/** The last action of an offer as a phrase. @param {Offer} offer */
const phraseOf = (offer) => offer.say[offer.say.length - 1];

/**
 * Rows, one a kind of action; within each by number, left before right.
 * @param {Offer[]} offers
 * @param {Words} words
 * @returns {Row[]}
 */
function rowsOf(offers, words) {
  /** @type {Map<string, Row>} */
  const rows = new Map();
  for (const offer of offers) {
    const key = phraseOf(offer)[0];
    const row = rows.get(key) ?? { key, offers: [] };
    row.offers.push(offer);
    rows.set(key, row);
  }
  const isRight = (/** @type {Offer} */ offer) => Number(words.direction(String(offer.d)) === words.table.directions?.right);
  for (const { offers: own } of rows.values()) {
    own.sort((a, b) => (a.to ?? a.by) - (b.to ?? b.by) || isRight(a) - isRight(b));
  }
  return [...rows.values()].sort((a, b) => a.offers[0].place - b.offers[0].place);
}

/**
 * @param {HTMLElement} root
 * @param {{offers: Offer[], withheld: Withheld[]}} menu
 * @param {Words} words
 * @param {(offer: Offer) => void} choose
 * @param {Marked} [marked]
 */
export function drawList(root, { offers, withheld }, words, choose, marked = UNMARKED) {
  const groups = ["lane", "ball"].flatMap((turn) => {
    const own = offers.filter((offer) => offer.turn === turn);
    return own.length ? [group(turn, own, words, choose, marked)] : [];
  });
  root.replaceChildren(...groups, ...notYet(withheld, words));
}

/** One line for each player who may not do something yet. @param {Withheld[]} withheld @param {Words} words */
function notYet(withheld, words) {
  /** @type {Map<number, Set<string>>} */
  const found = new Map();
  for (const { p, act } of withheld) found.set(p, (found.get(p) ?? new Set()).add(act));
  const lines = [...found].sort(([a], [b]) => a - b).map(([player, acts]) => {
    return sayMayNot(words.player(player), [...acts].map((act) => words.table.verbs[act] ?? words.table.actions[act] ?? act));
  });
  return lines.map((textContent) => Object.assign(document.createElement("p"), { className: "not-yet", textContent }));
}

/** The team's own word for a kind of action and its sign, as small words. @param {string} key @param {Words} words */
function called(key, words) {
  const { call, signal } = words.call(key);
  if (!call && !signal) return [];
  const made = Object.assign(document.createElement("span"), { className: "called" });
  made.append(" ", call && sayGeneral("called_beside", { call }), Object.assign(document.createElement("small"), { textContent: signal }));
  return [made];
}

/**
 * @param {string} turn
 * @param {Offer[]} offers
 * @param {Words} words
 * @param {(offer: Offer) => void} choose
 * @param {Marked} marked
 */
function group(turn, offers, words, choose, marked) {
  const section = document.createElement("section");
  section.className = `group group-${turn}`;
  const heading = document.createElement("h3");
  const player = Number(phraseOf(offers[0])[1].p);
  heading.textContent = words.say("groups", [turn, { p: player }]);
  heading.id = `group-${turn}`;
  section.setAttribute("aria-labelledby", heading.id);
  section.append(heading, ...rowsOf(offers, words).map((row) => draw(row, words, choose, marked)));
  return section;
}

/**
 * @param {Row} row
 * @param {Words} words
 * @param {(offer: Offer) => void} choose
 * @param {Marked} marked
 */
function draw(row, words, choose, marked) {
  const element = document.createElement("div");
  element.className = `row row-${row.key}`;
  if (row.offers.length === 1) {
    const [offer] = row.offers;
    const made = button(offer, "", words, choose, marked);
    const text = document.createElement("span");
    text.append(words.say("list", phraseOf(offer)), ...called(row.key, words));
    made.prepend(text);
    element.append(made);
    return element;
  }
  const telling = tellingApart(row.offers);
  const label = document.createElement("span");
  label.className = "verb";
  label.append(verb(row, words), ...called(row.key, words));
  const choices = document.createElement("span");
  const wide = telling.includes("s");
  choices.className = wide ? "choices wide" : "choices";
  for (const offer of row.offers) choices.append(button(offer, choiceWords(offer, telling, words), words, choose, marked));
  element.append(label, choices);
  return element;
}

/**
 * The fewest letters that tell a row's offers apart.
 * @param {Offer[]} offers
 * @returns {Letter[]}
 */
function tellingApart(offers) {
  const distinct = (/** @type {Letter[]} */ letters) =>
    new Set(offers.map((offer) => letters.map((letter) => phraseOf(offer)[1][letter]).join())).size === offers.length;
  for (const letter of LETTERS) if (distinct([letter])) return [letter];
  for (const a of LETTERS) for (const b of LETTERS) if (a < b && distinct([a, b])) return b === "d" ? [a, b] : [b, a];
  return LETTERS;
}

/**
 * The words a row has in common, with a gap where its choices differ: "back screens for".
 * @param {Row} row
 * @param {Words} words
 */
function verb(row, words) {
  // What only some of them have is nobody's: "feeds … on the left block" was said of the right one too.
  const apart = LETTERS.filter((letter) => new Set(row.offers.map((offer) => phraseOf(offer)[1][letter])).size > 1);
  const slots = new RegExp(`\\{(${[...apart, ...(apart.includes("s") ? ["at", "the", "to", "from"] : [])].join("|")})\\}`, "g");
  const template = (words.table.list?.[row.key] ?? row.key).replace(slots, (_, slot) => gap(slot, words));
  return words.fill(template, phraseOf(row.offers[0])[1]).replace(/^[\s,:…]+|[\s,:…]+$/g, "");
}

/** What stands for a slot that is left open: of a spot's form the rest, "to the …". @param {string} slot @param {Words} words */
function gap(slot, words) {
  const form = slot === "the" || slot === "to" || slot === "from" ? words.table[slot].any_spot : undefined;
  return form?.replace("{spot}", "…") ?? "…";
}

/** @param {Offer} offer @param {Letter[]} telling @param {Words} words */
function choiceWords(offer, telling, words) {
  const [, given] = phraseOf(offer);
  const said = telling.filter((letter) => given[letter] !== undefined).map((letter) => {
    const value = given[letter];
    if (letter === "d") return words.direction(String(value));
    return letter === "s" ? words.spot(String(value)) : words.player(Number(value));
  });
  return said.length ? said.reduce((one, other) => sayBoard("choice", { one, other })) : "";
}

/**
 * @param {Offer} offer
 * @param {string} text
 * @param {Words} words
 * @param {(offer: Offer) => void} choose
 * @param {Marked} marked
 */
function button(offer, text, words, choose, { isNext, only }) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = offer.default ? "choice default" : "choice";
  made.dataset.act = offer.a.join(" ");
  if (only.has(offer)) made.classList.add("list-only");
  if (isNext(offer)) made.append(nextMark());
  if (isNext(offer)) made.title = sayBoard("next_in_play");
  made.append(text);
  made.setAttribute("aria-label", calledOf(offer, words));
  const [sign] = offer.mark;
  const key = offer.default ? sayBoard("enter_key") : offer.a.length === 1 || sign === "drive" ? KEYS[sign]?.(offer, words) : "";
  if (key) {
    const hint = document.createElement("kbd");
    hint.textContent = key;
    made.append(hint);
  }
  made.addEventListener("click", () => choose(offer));
  return made;
}
