/**
 * Says texts by key. A capability's texts come with the program in English; a page in another language has its own
 * with it, as JSON, so that they are there at once and without a network.
 */

import about from "../../../engine/locales/en/language.json" with { type: "json" };

/**
 * @typedef {Record<string, unknown>} Texts  templates by key, or by plural category, or groups of them
 * @typedef {Record<string, string | number>} Given
 */

/**
 * @template T
 * @typedef {{[K in keyof T & string]: T[K] extends string | {other: string} ? K : `${K}.${Keys<T[K]>}` | (string & `${K}.${string}`)}[keyof T & string]} Keys
 *   the keys there are; of a group one that is put together at run time
 */

const tag = typeof document === "undefined" ? "en" : document.documentElement.lang || "en";
/** @type {Record<string, Texts>} */
const own = tag === "en" ? {} : JSON.parse(document.getElementById("texts")?.textContent || "{}");
const rules = new Intl.PluralRules(tag);
/** @type {typeof about} */
const language = { ...about, .../** @type {object} */ (own.language ?? {}) };

/** The language's tag, for what the browser itself writes: days, for one. */
export const languageTag = tag;

/**
 * The texts of a section in the page's language.
 * @template T
 * @param {string} capability @param {string} section @param {T} english @returns {T}
 */
export function tableOf(capability, section, english) {
  return /** @type {T} */ ({ ...english, .../** @type {object} */ (own[capability]?.[section] ?? {}) });
}

/**
 * What says a capability's texts: `say(key, given)` fills a text's slots. `n` is a number that chooses the plural
 * form, and is written with its digits in groups.
 * @template {Texts} T
 * @param {string} capability @param {T} english
 * @returns {(key: Keys<T>, given?: Given) => string}
 */
export function sayer(capability, english) {
  return (key, given = {}) => {
    let text = found(own[capability], key) ?? found(english, key);
    if (text === undefined) throw new Error(`There is no text ${capability}.${key}.`);
    if (typeof text === "object") {
      const forms = /** @type {Record<string, string>} */ (text);
      text = forms[rules.select(Number(given.n))] ?? forms.other;
    }
    return fill(/** @type {string} */ (text), given);
  };
}

/** @param {string} template @param {Given} given */
export function fill(template, given) {
  return template.replace(/\{(\w+)\}/g, (slot, name) => (name in given ? written(name, given[name]) : slot));
}

/** A number to so many digits after the language's decimal sign. @param {number} value @param {number} digits */
export function decimal(value, digits) {
  return value.toFixed(digits).replace(".", language.numbers.decimal);
}

/** @param {readonly string[]} items @param {keyof typeof about.lists} [how] */
export function listed(items, how = "and") {
  const { two, more, last } = language.lists[how];
  if (items.length < 3) return items.length < 2 ? items.join() : fill(two, { a: items[0], b: items[1] });
  const said = items.slice(1, -1).reduce((a, b) => fill(more, { a, b }), items[0]);
  return fill(last, { a: said, b: items[items.length - 1] });
}

/**
 * A text with something in it that is more than text, such as an element: what stands before, in and behind its slots.
 * The slots are left open by what says the text: `say("at", { address: "{address}" })`.
 * @template T
 * @param {string} text @param {Record<string, T>} given @returns {(string | T)[]}
 */
export function parted(text, given) {
  return text.split(/\{(\w+)\}/).map((part, i) => (i % 2 ? given[part] : part)).filter((part) => part !== "");
}

/** The first letter large. @param {string} text */
export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** @param {unknown} texts @param {string} key */
function found(texts, key) {
  return key.split(".").reduce((/** @type {any} */ at, part) => at?.[part], texts);
}

/** A whole number with its digits in groups. @param {number} number */
export const whole = (number) => String(number).replace(/\B(?=(\d{3})+$)/g, language.numbers.group);

/** @param {string} name @param {string | number} value */
const written = (name, value) => (name === "n" && typeof value === "number" ? whole(value) : String(value));
