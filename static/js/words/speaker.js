/** Phrases become sentences, by the language's tables. */

import court from "../../../engine/locales/en/court.json" with { type: "json" };
import findings from "../../../engine/locales/en/findings.json" with { type: "json" };
import rules from "../../../engine/locales/en/rules.json" with { type: "json" };
import steps from "../../../engine/locales/en/steps.json" with { type: "json" };
import { tableOf } from "./sayer.js";

/**
 * @typedef {import("../state/wire.js").Phrase} Phrase
 * @typedef {import("../state/wire.js").Params} Params
 *
 * @typedef {object} SpokenTable  sections of engine/locales: court, rules, findings, steps
 * @property {Record<string, string>} spots
 * @property {Record<string, string>} at
 * @property {Record<string, string>} the  as those below: `any_spot` for every spot without a text of its own
 * @property {Record<string, string>} to
 * @property {Record<string, string>} from
 * @property {Record<string, string>} directions
 * @property {Record<string, string>} formations
 * @property {Record<string, string>} courts
 * @property {Record<string, string>} actions
 * @property {Record<string, string>} verbs  what somebody may do: "feed the post"
 * @property {Record<string, string>} action_meanings  a line each, for who is about to choose
 * @property {Record<string, string>} movement_meanings
 * @property {Record<string, string>} cutter_place_meanings
 * @property {Record<string, string>} groups
 * @property {Record<string, string>} chain
 * @property {Record<string, string>} list
 * @property {Record<string, string>} who
 * @property {Record<string, string>} you
 * @property {Record<string, string>} ball
 *
 * @typedef {object} Words
 * @property {(section: "chain" | "list" | "who" | "you" | "ball" | "groups", phrase: Phrase) => string} say
 * @property {(template: string, given: Params) => string} fill  a template's slots
 * @property {(number: number) => string} player
 * @property {(spot: string) => string} spot
 * @property {(spot: string) => string} at  the spot with its preposition
 * @property {(spot: string) => Record<SpotForm, string>} forms  the spot's name in each form
 * @property {(direction: string) => string} direction
 * @property {(name: string) => string} formation
 * @property {(name: string) => string} court
 * @property {(action: string) => {call: string, signal: string}} call  the team's own word and sign for an action, by
 *   its text form; "" where it has none
 * @property {SpokenTable} table
 */

/** Forms of a spot's name: "on the left wing", "the left wing", "to the left wing", "from the left wing". @typedef {"at" | "the" | "to" | "from"} SpotForm */

/** @type {SpokenTable} */
const TABLE = Object.create(null);
for (const [capability, sections] of Object.entries({ court, rules, findings, steps })) {
  for (const [section, english] of Object.entries(sections)) Reflect.set(TABLE, section, tableOf(capability, section, english));
}

/** The other side of a spot or direction, for a floor seen in a mirror. @param {string} name */
function otherSide(name) {
  if (name.startsWith("left")) return name.replace("left", "right");
  return name.replace("right", "left");
}

/**
 * @param {object} [how]
 * @param {boolean} [how.mirrored]  the floor is shown in a mirror, so left and right change over in words too
 * @param {(number: number) => string} [how.name]  what a player is called
 * @param {import("../state/wire.js").Calls} [how.calls]
 * @returns {Words}
 */
export function speaker({ mirrored = false, name = String, calls = {} } = {}) {
  const table = TABLE;
  const seen = (/** @type {string} */ word) => (mirrored ? otherSide(word) : word);
  const plain = (/** @type {string} */ word) => word.replaceAll("_", " ");
  const spot = (/** @type {string} */ word) => table.spots?.[seen(word)] ?? plain(seen(word));
  /** @param {SpotForm} name @param {string} word */
  const form = (name, word) => (table[name]?.[seen(word)] ?? table[name]?.any_spot ?? "{spot}").replace("{spot}", spot(word));
  const direction = (/** @type {string} */ word) => table.directions?.[seen(word)] ?? seen(word);
  /** @param {string} template @param {Params} given */
  const fill = (template, given) =>
    template.replace(/\{(p|m|s|at|the|to|from|d)\}/g, (_, letter) => {
      const value = given[letter.length > 1 ? "s" : letter];
      if (value === undefined) return "";
      if (letter === "p" || letter === "m") return name(Number(value));
      if (letter === "d") return direction(String(value));
      return letter === "s" ? spot(String(value)) : form(letter, String(value));
    });
  return {
    table,
    fill,
    spot,
    at: (word) => form("at", word),
    forms: (word) => ({ at: form("at", word), the: form("the", word), to: form("to", word), from: form("from", word) }),
    direction,
    player: name,
    formation: (word) => table.formations?.[word] ?? plain(word),
    call: (action) => ({ call: "", signal: "", ...calls[action.split(":")[0]] }),
    court: (word) => table.courts?.[word] ?? word.toUpperCase(),
    say(section, [key, given]) {
      const template = table[section]?.[key];
      return template ? fill(template, given) : plain(key);
    },
  };
}
