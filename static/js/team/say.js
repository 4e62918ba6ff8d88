/** Rules, findings and differences as sentences: the language's words put together. Pure. */

import { sayTeam } from "../words/team-words.js";
import { decimal, listed, capital } from "../words/sayer.js";

/**
 * @typedef {import("../words/speaker.js").Words} Words
 * @typedef {Record<string, Record<string, string>>} Table
 * @typedef {import("./team-api.js").Finding} Finding
 * @typedef {import("./team-api.js").Calls} Calls
 */

/**
 * Roles that several players can have at once, for the grammar of "each".
 * @type {ReadonlySet<string>}
 */
const SEVERAL = new Set(["perimeter", "ball_side_posts", "weak_side_posts", "posts", "ahead", "behind", "deepest_two"]);

/** @param {Words} words  @param {string} section @param {string} key */
function look(words, section, key) {
  const table = /** @type {Table} */ (/** @type {unknown} */ (words.table));
  return table[section]?.[key] ?? key.replaceAll("_", " ");
}

/** The order in which the language's tables lists a section. @param {Words} words @param {string} section */
export function order(words, section) {
  const table = /** @type {Table} */ (/** @type {unknown} */ (words.table));
  return Object.keys(table[section] ?? {});
}

/** @param {Words} words @param {string} kind */
export const action = (words, kind) => look(words, "actions", kind);
/** @param {Words} words @param {string} trigger */
export const trigger = (words, trigger) => look(words, "triggers", trigger);
/** @param {Words} words @param {string} role */
export const role = (words, role) => look(words, "roles", role);
/** @param {Words} words @param {string} name */
export const movement = (words, name) => look(words, "movements", name);

/** @param {Words} words @param {string} name */
export const cutterPlace = (words, name) => look(words, "cutter_places", name);

/** @param {string | string[] | undefined} value @returns {string[]} */
export function tried(value) {
  return value === undefined ? [] : typeof value === "string" ? [value] : value;
}

/** "each fills toward the ball, else stays". @param {Words} words @param {string} who @param {string[]} movements */
export function response(words, who, movements) {
  return listed(movements.map((name, i) => {
    const word = movement(words, name);
    if (i) return sayTeam("or_else", { movement: word });
    return SEVERAL.has(who) ? sayTeam("each", { movement: word }) : word;
  }), "comma");
}

/**
 * Turn what a finding or a difference is about into words.
 * @param {Words} words
 * @param {Record<string, string>} about
 * @returns {Record<string, string>}
 */
function worded(words, about) {
  /** @type {Record<string, string>} */
  const said = {};
  for (const [key, value] of Object.entries(about)) {
    if (key === "action") said[key] = action(words, value);
    else if (key === "role" || key === "other") said[key] = role(words, value);
    else if (key === "movement") said[key] = movement(words, value);
    else if (key === "trigger") said[key] = trigger(words, value);
    else if (key === "metres") said[key] = decimal(Number(value), 2);
    else if (key === "first" || key === "second" || key === "spot") Object.assign(said, { ...words.forms(value), [key]: words.forms(value).the });
    else said[key] = value;
  }
  said.trigger ??= about.action ? sayTeam("on_action", { action: action(words, about.action) }) : "";
  return said;
}

/** @param {string} template @param {Record<string, string>} said */
function put(template, said) {
  return capital(template.replace(/\{(\w+)\}/g, (_, key) => said[key] ?? ""));
}

/** @param {Words} words @param {Finding} finding */
export function finding(words, { kind, about }) {
  return put(look(words, "findings", kind), worded(words, about));
}

/** What helps against a finding, "" if nothing is known. @param {Words} words @param {Finding} finding */
export function mend(words, { kind, about }) {
  const text = look(words, "mends", kind);
  return text === kind.replaceAll("_", " ") ? "" : put(text, worded(words, about));
}

/**
 * @param {Words} words
 * @param {string} key
 * @param {Record<string, string>} about
 * @param {string} one  title
 * @param {string} other  title
 */
export function difference(words, key, about, one, other) {
  const side = (/** @type {string} */ value) => {
    if (key === "posts") return value || sayTeam("as_formation");
    if (key === "cutter") return listed((value || "near_ball").split(",").map((name) => cutterPlace(words, name)), "comma");
    if (!value) return sayTeam("no_word");
    return response(words, about.role ?? "", value.split(","));
  };
  const said = { ...worded(words, { ...about, one: "", other: "" }), one_title: one, other_title: other };
  return put(look(words, "differences", key), { ...said, one: side(about.one ?? ""), other: side(about.other ?? "") });
}

/** Actions and lane choices as a list of words. @param {Words} words @param {string[]} kinds */
export function list(words, kinds) {
  const known = order(words, "actions");
  return listed([...kinds].sort((a, b) => known.indexOf(a) - known.indexOf(b)).map((kind) => action(words, kind)), "comma");
}

/** A text form in words: "pass, left wing". @param {Words} words @param {string} text */
export function choiceWords(words, text) {
  const [kind, ...rest] = text.split(":");
  const parts = rest.map((part) => (part === "left" || part === "right" ? words.direction(part) : words.spot(part)));
  return listed([action(words, kind), ...parts], "comma");
}
