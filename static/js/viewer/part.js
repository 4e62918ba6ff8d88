/**
 * Whose part this phone shows: its own player's, a position's, or somebody's its player follows from the bench. Pure.
 *
 * One number is one person: a digit on a disc that nobody of the squad wears is a position, and the two are never
 * taken for each other.
 */

/**
 * @typedef {import("../state/wire.js").Squad} Squad
 * @typedef {import("../state/wire.js").Member} Member
 * @typedef {{squad: Squad, bench: Member[]}} People
 *
 * @typedef {object} Part
 * @property {"asked" | "watches" | "floor" | "place" | "bench" | "unknown"} is  unknown: a number the squad does not have
 * @property {number} place  whose steps lead, 0 for nobody's
 * @property {string} by  the number of who plays that position, "" for nobody of the squad
 * @property {string} of  the number that is followed from the bench, "" where it is no player
 *
 * @typedef {object} Change  what has become of a part without its player's doing
 * @property {"moved" | "came_in" | "to_bench" | "left_squad" | "other_left" | "other_moved" | "taken" | "free"} key
 * @property {string} n  of whom it is told
 * @property {number} place
 * @property {boolean} ask  the player has to say how it goes on
 */

/** Somebody who only watches. */
export const WATCHES = "watches";

/** A position as a choice. @param {number} place */
export const placeChoice = (place) => `place ${place}`;
/** Which position a choice names, 0 for none. @param {string | null} choice */
export const placeIn = (choice) => Number(/^place ([1-5])$/.exec(choice ?? "")?.[1] ?? 0);

/** Everybody of the squad, by number. @param {People} people @returns {Member[]} */
export function everybody({ squad, bench }) {
  const onFloor = Object.values(squad).filter((member) => member !== null);
  return [...onFloor, ...bench].sort((a, b) => Number(a.number) - Number(b.number) || a.number.length - b.number.length);
}

/** The position of who wears this number, 0 for none. @param {People} people @param {string} number */
export function wearing({ squad }, number) {
  return Number(Object.keys(squad).find((place) => squad[place]?.number === number) ?? 0);
}

/**
 * What was chosen on this phone, as it is to be taken on a board with these people: where no squad is known, the five
 * go by their positions, and a number can mean nothing else.
 * @param {string | null} choice
 * @param {People} people
 */
export function settled(choice, people) {
  return choice !== null && /^[1-5]$/.test(choice) && !everybody(people).length ? placeChoice(Number(choice)) : choice;
}

/**
 * @param {string | null} mine  a number, a position, `WATCHES`, or null while nobody has said
 * @param {string | null} follows  a number or a position: whose part is shown to who is not on the floor
 * @param {People} people
 * @returns {Part}
 */
export function partOf(mine, follows, people) {
  const none = { place: 0, by: "", of: "" };
  if (mine === null) return { is: "asked", ...none };
  if (mine === WATCHES) return { is: "watches", ...none };
  const place = placeIn(mine);
  if (place) return { is: "place", place, by: people.squad[place]?.number ?? "", of: "" };
  const at = wearing(people, mine);
  if (at) return { is: "floor", place: at, by: mine, of: "" };
  const is = people.bench.some(({ number }) => number === mine) ? "bench" : "unknown";
  const taking = placeIn(follows);
  if (taking) return { is, place: taking, by: "", of: "" };
  return { is, place: follows === null ? 0 : wearing(people, follows), by: "", of: follows ?? "" };
}

/**
 * What a change on the board made of this part; null where it is the same.
 * @param {Part} before
 * @param {Part} now  of the same choice
 * @param {string} mine
 * @returns {Change | null}
 */
export function changeOf(before, now, mine) {
  /** @param {Change["key"]} key @param {boolean} [ask] @param {string} [n] @returns {Change} */
  const told = (key, ask = false, n = mine) => ({ key, n, place: now.place, ask });
  if (before.is === now.is && before.place === now.place && before.by === now.by) return null;
  switch (now.is) {
    case "floor":
      if (before.is === "place") return told("taken", true);
      return told(before.is === "floor" ? "moved" : "came_in");
    case "place":
      return now.by ? told("taken", true, now.by) : told("free");
    case "bench":
    case "unknown":
      if (before.is !== now.is) return told(now.is === "bench" ? "to_bench" : "left_squad", true);
      return now.place ? told("other_moved", false, now.of) : told("other_left", true, now.of);
    default:
      return null;
  }
}
