/**
 * Who is who: the five places of a board, and the squad's players on them. A place nobody has been put on goes
 * by its own number, unless somebody of the squad wears it. Pure.
 */

import { sayBoard } from "../words/board-words.js";

/**
 * @typedef {import("./wire.js").Squad} Squad
 * @typedef {import("./state.js").State} State
 *
 * @typedef {object} Roster
 * @property {(place: number) => string} face  the number on the disc
 * @property {(place: number) => string} name  under the disc, "" for none
 * @property {(place: number) => string} label  what sentences call him
 * @property {number} count  of the squad's players on places
 * @property {(place: number) => boolean} nobody  an empty place among places that are taken
 * @property {(key: string) => number | null} placeOf  whom a typed digit means
 */

/**
 * @param {Squad} squad
 * @param {object} [how]
 * @param {boolean} [how.named]  names are shown
 * @param {Record<string, string>} [how.names]  this device's own, by place
 * @param {{number: string}[]} [how.bench]  who of the squad is on no place
 * @param {(place: number) => string} [how.placeWord]  an empty place whose number somebody wears
 * @returns {Roster}
 */
export function rosterOf(squad, { named = false, names = {}, bench = [], placeWord = (place) => sayBoard("position", { place }) } = {}) {
  const members = Object.values(squad).filter((member) => member !== null);
  const worn = new Set(members.length ? [...members, ...bench].map((member) => member.number) : []);
  const member = (/** @type {number} */ place) => squad[place] ?? null;
  // One number is one person: a place nobody is on does not look like the player who wears that number.
  const taken = (/** @type {number} */ place) => !member(place) && worn.has(String(place));
  const face = (/** @type {number} */ place) =>
    member(place)?.number ?? (taken(place) ? sayBoard("position_short", { place }) : String(place));
  const name = (/** @type {number} */ place) => {
    if (!named) return "";
    const found = member(place);
    return (found ? found.name : names[place]) ?? "";
  };
  return {
    face,
    name,
    // "4" is the player who wears it; the fourth place, if nobody is on it, is then "place 4".
    label: (place) => name(place) || (taken(place) ? placeWord(place) : face(place)),
    count: members.length,
    nobody: (place) => members.length > 0 && !member(place),
    placeOf(key) {
      const wearing = Object.keys(squad).find((place) => squad[place]?.number === key);
      return wearing ? Number(wearing) : /^[1-5]$/.test(key) ? Number(key) : null;
    },
  };
}

/**
 * Who plays which place and who waits, as this device shows it.
 * @param {State} state
 * @returns {Pick<State, "squad" | "bench">}
 */
export function seated(state) {
  let { squad, bench } = state;
  for (const { places } of state.pending) {
    for (const [place, id] of Object.entries(places ?? {})) {
      const coming = bench.find((member) => member.id === id) ?? null;
      const going = squad[place];
      if (id !== null && !coming) continue;
      squad = { ...squad, [place]: coming };
      bench = bench.flatMap((member) => (member !== coming ? [member] : going ? [going] : []));
      if (!coming && going) bench = [...bench, going];
    }
  }
  return { squad, bench };
}
