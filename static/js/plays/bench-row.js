/** The row on the board with the pinned plays, one tap each, by when they are wanted; and where each stands in it. */

import { button, make } from "../ui/dom.js";
import { sayPlays } from "../words/plays-words.js";

/**
 * @typedef {import("./apply.js").Play} Play
 * @typedef {{occasion: string, plays: Play[]}} Group
 */

/** When a play is wanted, in the order of the row; "" comes first: at any time. As the server takes them. */
export const OCCASIONS = ["", "timeout", "sideline", "baseline", "last_shot", "zone"];

/** @param {Play} play  "" for one of a later version as well */
export const occasionOf = ({ occasion = "" }) => (OCCASIONS.includes(occasion) ? occasion : "");

/** The order of the row: those nobody has put anywhere in the order they were made. @param {Play} a @param {Play} b */
export function byPlace(a, b) {
  return OCCASIONS.indexOf(occasionOf(a)) - OCCASIONS.indexOf(occasionOf(b)) || (a.rank ?? 0) - (b.rank ?? 0) || a.made - b.made
    || (a.id < b.id ? -1 : 1);
}

/** The pinned plays by when they are wanted; only what has any. @param {Play[]} plays @returns {Group[]} */
export function grouped(plays) {
  const pinned = plays.filter((play) => play.pinned).sort(byPlace);
  return OCCASIONS.map((occasion) => ({ occasion, plays: pinned.filter((play) => occasionOf(play) === occasion) })).filter(
    (group) => group.plays.length);
}

/**
 * The ranks that move a pinned play by one among those of its occasion: only what changes.
 * @param {Play[]} plays @param {string} id @param {-1 | 1} by @returns {{id: string, rank: number}[]}
 */
export function moved(plays, id, by) {
  const group = grouped(plays).find((each) => each.plays.some((play) => play.id === id))?.plays ?? [];
  const at = group.findIndex((play) => play.id === id);
  const to = at + by;
  if (at < 0 || to < 0 || to >= group.length) return [];
  const order = [...group];
  [order[at], order[to]] = [order[to], order[at]];
  return order.flatMap((play, rank) => ((play.rank ?? 0) === rank ? [] : [{ id: play.id, rank }]));
}

/** The rank that puts a play last among the pinned ones of its occasion. @param {Play[]} plays @param {Play} play */
export function lastRank(plays, play) {
  const others = grouped(plays).find(({ occasion }) => occasion === occasionOf(play))?.plays ?? [];
  return Math.max(-1, ...others.filter(({ id }) => id !== play.id).map(({ rank = 0 }) => rank)) + 1;
}

/**
 * @param {HTMLElement} root  an empty list
 * @param {Group[]} groups
 * @param {{here: string, title: (play: Play) => string, run: (play: Play) => void}} given  here: the one on the board
 */
export function drawBenchRow(root, groups, { here, title, run }) {
  const focused = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.play : "";
  root.replaceChildren(...groups.map(({ occasion, plays }) => {
    const group = make("li", "group");
    const list = make("ul", "", ...plays.map((play) => {
      const made = button("chip", title(play), () => run(play), sayPlays("play", { name: title(play) }));
      made.dataset.play = play.id;
      if (play.id === here) made.setAttribute("aria-current", "true");
      return make("li", "", made);
    }));
    if (occasion) {
      const word = sayPlays(`occasions.${occasion}`);
      list.setAttribute("aria-label", word);
      const label = make("span", "when", word);
      label.setAttribute("aria-hidden", "true");
      group.append(label);
    }
    group.append(list);
    return group;
  }));
  if (!groups.length) root.append(make("li", "none", sayPlays("none_pinned")));
  if (focused) /** @type {HTMLElement | null} */ (root.querySelector(`[data-play="${CSS.escape(focused)}"]`))?.focus();
}
