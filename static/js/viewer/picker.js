/** The picker: which number is yours, and from the bench, whose part you want to see. Buttons that stay the same stay. */

import { everybody, placeChoice } from "./part.js";
import { el } from "./line-state.js";
import { sayViewer } from "../words/viewer-words.js";

/**
 * @typedef {import("./part.js").People} People
 * @typedef {{choice: string, face: string, name: string, pressed: boolean}} Option
 *
 * @typedef {object} Asked
 * @property {"who" | "bench"} page
 * @property {string | null} mine  as it was chosen
 * @property {string | null} follows
 * @property {People} people
 * @property {number[]} players  the five positions
 */

/** @param {Asked} asked */
export function drawPicker(asked) {
  const { page, mine, people, players } = asked;
  const bench = page === "bench" && mine !== null;
  el("asks").textContent = bench ? sayViewer("asks.bench", { n: mine }) : sayViewer("asks.who");
  put(el("numbers"), bench ? onFloor(asked) : numbers(asked));
  const places = bench ? players : players.filter((place) => !people.squad[place] && everybody(people).length);
  put(el("places"), places.map((place) => ({
    choice: placeChoice(place),
    face: sayViewer("position", { place }),
    name: sayViewer(bench ? "take_place" : "pick_place", { place }),
    pressed: placeChoice(place) === (bench ? asked.follows : mine),
  })));
  el("places_ask").textContent = sayViewer(bench ? "asks.take" : "asks.place");
  for (const id of ["places", "places_ask"]) el(id).hidden = !places.length;
  // Where there is no squad, the five positions stand for it: nobody's number is missing.
  el("not_here").textContent = bench || !everybody(people).length ? "" : sayViewer("asks.not_here");
  el("not_here").hidden = !el("not_here").textContent;
  el("watch").hidden = bench;
  el("other").hidden = !bench;
  el("close").hidden = mine === null;
}

/** Everybody of the squad; where there is none, the five by their positions. @param {Asked} asked @returns {Option[]} */
function numbers({ mine, people, players }) {
  const squad = everybody(people);
  const name = (/** @type {string} */ n) => sayViewer("pick", { n });
  if (squad.length) return squad.map(({ number }) => ({ choice: number, face: number, name: name(number), pressed: number === mine }));
  return players.map((place) => (
    { choice: placeChoice(place), face: String(place), name: name(String(place)), pressed: placeChoice(place) === mine }));
}

/** Whom one can follow. @param {Asked} asked @returns {Option[]} */
function onFloor({ follows, people }) {
  return everybody({ squad: people.squad, bench: [] }).map(({ number }) => (
    { choice: number, face: number, name: sayViewer("show_number", { n: number }), pressed: number === follows }));
}

/** @param {HTMLElement} root @param {Option[]} options */
function put(root, options) {
  const focused = document.activeElement;
  const wanted = options.map((option) => {
    const known = root.querySelector(`[data-choice="${option.choice}"]`);
    const button = known instanceof HTMLElement ? known : document.createElement("button");
    button.setAttribute("type", "button");
    Object.assign(button.dataset, { choice: option.choice, number: option.face });
    if (button.textContent !== option.face) button.textContent = option.face;
    button.setAttribute("aria-label", option.name);
    button.setAttribute("aria-pressed", String(option.pressed));
    return button;
  });
  if (wanted.length === root.children.length && wanted.every((button, i) => button === root.children[i])) return;
  root.replaceChildren(...wanted);
  if (focused instanceof HTMLElement && root.contains(focused)) focused.focus();
}

/** Put the keyboard where the choice is to be made. */
export function focusPicker() {
  const first = el("picker").querySelector('[aria-pressed="true"]') ?? el("picker").querySelector("button:not([hidden])");
  if (first instanceof HTMLElement) first.focus();
}
