/**
 * Speed and pace: one button that says what they are, and the panel it opens. Both are of this sitting only, so that
 * what is chosen in one time-out does not surprise in the next.
 */

import { button, make } from "./dom.js";
import { sayPace } from "../words/pace-words.js";

/**
 * @typedef {object} Pace
 * @property {number} rate  film seconds a second
 * @property {boolean} taught  everybody arrives before the next action; else it begins when the handler is ready
 */

/** How each speed is written. @type {Record<number, string>} */
const WRITTEN = { 0.5: "½×", 1: "1×", 1.5: "1½×" };

/** How a phone writes them, on a button that has nothing beside it to say what the figure is. */
const SPELLED = { 0.5: () => sayPace("spelled.half"), 1: () => sayPace("spelled.full") };

const paceOf = (/** @type {boolean} */ taught) => sayPace(taught ? "taught" : "game");

/**
 * Say on the button what is chosen.
 * @param {HTMLElement} on @param {Pace} pace
 * @param {boolean} [spelled]  in words
 */
export function showPace(on, { rate, taught }, spelled = false) {
  const key = `${rate} ${taught}`;
  if (on.dataset.pace === key) return;
  on.dataset.pace = key;
  const written = (spelled && Reflect.get(SPELLED, rate)?.()) || WRITTEN[rate];
  on.replaceChildren(make("b", "", written), make("small", "", paceOf(taught)));
  on.setAttribute("aria-label", sayPace(spelled ? "now_spelled" : "now", { rate: written, pace: paceOf(taught) }));
  on.setAttribute("aria-haspopup", "dialog");
}

/**
 * @param {object} given
 * @param {Pace} given.pace
 * @param {number[]} given.rates  to choose from
 * @param {() => number} given.seconds  how long the whole chain takes as it is set now, 0 if there is none
 * @param {(pace: Pace) => void} given.choose
 */
export function openPace({ pace: given, rates, seconds, choose }) {
  let pace = given;
  const dialog = make("dialog", "pace");
  dialog.setAttribute("aria-label", sayPace("title"));
  dialog.addEventListener("close", () => dialog.remove());
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog) dialog.close();
  });
  const lasts = make("p", "lasts");
  lasts.setAttribute("role", "status");
  /** @type {(() => void)[]} */
  const draws = [];
  const draw = () => {
    for (const each of draws) each();
    const n = Math.round(seconds());
    lasts.textContent = n ? sayPace("lasts_long", { n }) : "";
  };
  /** @param {string | Node} label @param {Partial<Pace>} patch */
  const way = (label, patch) => {
    const made = button("", label, () => {
      pace = { ...pace, ...patch };
      choose(pace);
      draw();
    });
    draws.push(() => made.setAttribute("aria-pressed", String(Object.entries(patch).every(([name, value]) => Reflect.get(pace, name) === value))));
    return made;
  };
  /** @param {string} title @param {HTMLElement[]} ways */
  const group = (title, ways) => {
    const made = make("div", "ways", ...ways);
    made.setAttribute("role", "group");
    made.setAttribute("aria-label", title);
    return [make("h3", "", title), made];
  };
  const explained = (/** @type {boolean} */ taught) =>
    way(make("span", "", make("b", "", paceOf(taught)), make("small", "", sayPace(taught ? "taught_hint" : "game_hint"))), { taught });
  dialog.append(
    make("header", "", make("h2", "", sayPace("title")), button("plain", sayPace("close"), () => dialog.close())),
    ...group(sayPace("speed"), rates.map((rate) => way(WRITTEN[rate], { rate }))),
    ...group(sayPace("pace"), [explained(true), explained(false)]),
    make("p", "hint", sayPace("taps")),
    lasts,
  );
  draw();
  document.body.append(dialog);
  dialog.showModal();
}
