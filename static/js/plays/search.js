/** Finding a play: what it says of itself, which of many match, and in what order they stand. Pure. */

import { lineOf } from "./apply.js";
import { byPlace } from "./bench-row.js";
import { listed, capital } from "../words/sayer.js";
import { sayPlays } from "../words/plays-words.js";

/**
 * @typedef {import("./apply.js").Play} Play
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} Wanted
 * @property {string} text  all of its words must be in the play
 * @property {string[]} tags  it must have all of these
 * @property {"used" | "name"} sort
 */

/** Capitals, accents, and how compounds are written make no difference. @param {string} text */
function plain(text) {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replace(/[-_]/g, " ");
}

/** What kind of action this is; of what was drawn, for which moment. @param {string} text  its text form */
function kindOf(text) {
  const [kind, how = ""] = text.split(":");
  return kind === "script" ? `script_${/^as=([a-z]+)/.exec(how)?.[1] ?? "free"}` : kind;
}

/** An action in a word or two: "drive left". @param {string} text  its text form @param {Words} words */
export function actionWord(text, words) {
  const [kind, parts] = [kindOf(text), text.split(":").slice(1)];
  const known = words.table.actions[kind] ?? words.table.chain[kind] ?? kind.replaceAll("_", " ");
  const word = known.replace(/ \(.*\)/, "");
  const side = parts.find((part) => part === "left" || part === "right");
  return side ? sayPlays("action_where", { action: word, where: words.direction(side) }) : word;
}

/** A sentence of the engine with its actions in words: 'drive:left' is “drive left”. @param {string} sentence @param {Words} words */
export function spoken(sentence, words) {
  return sentence.replace(/'([a-z_]+(?::[a-z_]+)*)'/g, (_, /** @type {string} */ text) => sayPlays("quoted", { action: withSpot(actionWord(text, words), text, words) }));
}

/** How far a play can be played, and why no further. @param {{legal: number, of: number, why: string}} stops @param {Words} words */
export const stopsOf = ({ legal, of, why }, words) => listed([sayPlays("stops", { legal, of }), spoken(why, words)], "sentences");

/** An action's word with the spot that it names, if it names one. @param {string} word @param {string} text  its text form @param {Words} words */
function withSpot(word, text, words) {
  const spot = text.split(":").slice(1).find((part) => words.table.spots[part]);
  return spot ? sayPlays("action_where", { action: word, where: words.spot(spot) }) : word;
}

/** What tells a line from others: the last action of each step, without the fills. @param {import("./apply.js").Line} line */
function telling(line) {
  const last = line.map((step) => step[step.length - 1]);
  const some = last.filter((text) => !text.startsWith("fill:"));
  return some.length ? some : last;
}

/** The main line in a few words: "pass, drive left, kick-out". @param {Play} play @param {Words} words */
export function gist(play, words) {
  return listed(telling(lineOf(play)).map((text) => actionWord(text, words)), "comma");
}

/** What a play is called, or what happens in it. @param {Play} play @param {Words} words @param {string} unnamed */
export function titleOf(play, words, unnamed) {
  return play.name || gist(play, words) || unnamed;
}

/** Everything a play can be found by. @param {Play} play @param {Words} words */
function wordsIn(play, words) {
  const actions = new Set(play.tree.flatMap(([, text]) => text.split(" ").filter(Boolean)));
  const said = [...actions].flatMap((text) => {
    if (text.startsWith("script:")) return [actionWord(text, words)];
    const [kind, ...parts] = text.split(":");
    return [words.table.actions[kind] ?? "", kind, words.call(text).call, ...parts.map((part) => words.table.spots[part] ?? part)];
  });
  return plain([play.name, play.note, ...play.tags, play.formation_name, words.formation(play.formation), ...said].join(" "));
}

/**
 * The plays that are wanted, pinned ones first and as they stand on the board.
 * @param {Play[]} plays
 * @param {Wanted} wanted
 * @param {Words} words
 * @param {string} unnamed
 */
export function found(plays, { text, tags, sort }, words, unnamed) {
  const parts = plain(text).split(" ").filter(Boolean);
  const matching = plays.filter((play) => {
    if (!tags.every((tag) => play.tags.includes(tag))) return false;
    const all = parts.length ? wordsIn(play, words) : "";
    return parts.every((part) => all.includes(part));
  });
  const byName = (/** @type {Play} */ a, /** @type {Play} */ b) =>
    titleOf(a, words, unnamed).localeCompare(titleOf(b, words, unnamed), undefined, { numeric: true });
  const pinned = (/** @type {Play} */ a, /** @type {Play} */ b) => (a.pinned && b.pinned ? byPlace(a, b) : Number(b.pinned) - Number(a.pinned));
  return matching.sort((a, b) => pinned(a, b) || (sort === "used" ? b.used - a.used : 0) || byName(a, b));
}

/** Every tag, the one on most plays first. @param {Play[]} plays */
export function tagsOf(plays) {
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const tag of plays.flatMap((play) => play.tags)) counts.set(tag, (counts.get(tag) ?? 0) + 1);
  return [...counts].sort(([a, m], [b, n]) => n - m || a.localeCompare(b)).map(([tag]) => tag);
}

/** A list of tags as somebody writes it. @param {string} text @returns {string[]} */
export function readTags(text) {
  const all = text.split(/[,;\n]/).map((tag) => tag.trim().replace(/\s+/g, " ")).filter(Boolean);
  const own = all.filter((tag, i) => all.findIndex((other) => plain(other) === plain(tag)) === i);
  return own.slice(0, TAGS_MAX).map((tag) => tag.slice(0, TAG_MAX));
}

/** As the server takes them. */
export const NAME_MAX = 80;
export const NOTE_MAX = 2000;
export const TAGS_MAX = 12;
export const TAG_MAX = 30;

/** How a line begins, with places: "Pass right wing, drive left". @param {import("./apply.js").Line} line @param {Words} words */
export function firstWords(line, words) {
  const said = telling(line).slice(0, 3).map((text) => {
    const word = actionWord(text, words);
    // Which way is enough, where it goes a way: the spot beside it would be somebody else's.
    return /:(left|right)$/.test(text) ? word : withSpot(word, text, words);
  });
  return capital(listed(said, "comma"));
}

/** A name for a chain that nobody has used yet: "Pass, drive, kick-out". @param {import("./apply.js").Line} line
 * @param {Play[]} plays @param {Words} words @param {(name: string, n: number) => string} numbered */
export function suggest(line, plays, words, numbered) {
  // Which side is left out: whoever looks in a mirror sees the other one.
  const kinds = telling(line).slice(0, 4).map((text) => actionWord(kindOf(text), words));
  const name = capital(listed(kinds, "comma")).slice(0, NAME_MAX - 4);
  const taken = new Set(plays.map((play) => plain(play.name)));
  for (let n = 1; ; n++) {
    const own = n === 1 ? name : numbered(name, n);
    if (!taken.has(plain(own))) return own;
  }
}
