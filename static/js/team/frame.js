/**
 * What every section of the page shares: the team's data, the words, the toast with its undo, and the way
 * from an address (#rules/r_1/check) to what is shown.
 *
 * @typedef {import("../words/speaker.js").Words} Words
 * @typedef {import("./team-api.js").TeamData} TeamData
 *
 * @typedef {object} PageContext
 * @property {string} board  id of the board the page was opened from
 * @property {Words} words
 * @property {TeamData} team  as last fetched
 * @property {() => Promise<TeamData>} refresh  fetch it again
 * @property {(hash: string) => void} go
 * @property {() => void} redraw  show the current address anew
 * @property {(sentence: string, undo?: () => void | Promise<void>) => void} toast
 * @property {(error: unknown) => void} complain  show what went wrong
 *
 * @typedef {object} TeamView  something shown in the page
 * @property {HTMLElement} element
 * @property {string} title
 * @property {string} key  the same key: the same thing, only another part of it
 * @property {(parts: string[]) => void} [turn]  show another part
 * @property {() => void} [close]
 * @property {() => boolean} [unsaved]
 */

import { Asked } from "./team-api.js";
import { button, make } from "../ui/dom.js";
import { sayTeam } from "../words/team-words.js";
import { sayGeneral } from "../words/general-words.js";
import { listed } from "../words/sayer.js";

/** How long a sentence stands: longer when something can be taken back. */
const SHOWN_MS = { plain: 4500, undo: 9000 };
let timer = 0;

/** @param {HTMLElement} place @param {string} sentence @param {() => void | Promise<void>} [undo] */
export function toast(place, sentence, undo) {
  clearTimeout(timer);
  const hide = () => place.replaceChildren();
  const box = make("p", undo ? "toast undo" : "toast", make("span", "", sentence));
  if (undo) {
    box.append(button("", sayTeam("undo"), () => {
      hide();
      void undo();
    }));
  }
  place.replaceChildren(box);
  const wait = () => {
    timer = window.setTimeout(() => (box.matches(":hover, :focus-within") ? wait() : hide()), undo ? SHOWN_MS.undo : SHOWN_MS.plain);
  };
  wait();
}

/** The sentence of an error. @param {unknown} error */
export function sentenceOf(error) {
  return error instanceof Asked ? error.message : sayTeam("went_wrong");
}

/** Every sentence of an error. @param {unknown} error */
export function problemsOf(error) {
  const problems = error instanceof Asked ? error.problems : [];
  return problems.length ? listed(problems.map(([, sentence]) => sentence), "sentences") : sentenceOf(error);
}

/**
 * While something is fetched, and when it could not be.
 * @param {() => Promise<HTMLElement>} fetching
 */
export function awaited(fetching) {
  const place = make("div", "awaited");
  const run = async () => {
    const wait = window.setTimeout(() => place.replaceChildren(make("p", "quiet", sayGeneral("one_moment"))), 200);
    try {
      place.replaceChildren(await fetching());
    } catch (error) {
      const box = make("div", "trouble", make("p", "", listed([sayTeam("failed_load"), sentenceOf(error)], "sentences")), button("plain", sayTeam("again"), run));
      box.setAttribute("role", "alert");
      place.replaceChildren(box);
    } finally {
      clearTimeout(wait);
    }
  };
  void run();
  return place;
}

/** Bring what is wrong before the eyes, and the keyboard to it. @param {HTMLElement} place */
export function toProblems(place) {
  place.scrollIntoView({ block: "center" });
  const box = place.firstElementChild;
  if (box instanceof HTMLElement) {
    box.tabIndex = -1;
    box.focus({ preventScroll: true });
  }
}

/**
 * Every problem at once, at the top, each leading to its place.
 * @param {import("./team-api.js").Problem[]} problems
 * @param {(place: string) => void} [lead]
 */
export function problemList(problems, lead) {
  const items = problems.map(([place, sentence]) =>
    make("li", "", lead ? button("lead", sentence, () => lead(place)) : sentence));
  const box = make("div", "trouble", make("h3", "", sayTeam("problems", { n: problems.length })), make("ul", "", ...items), make("p", "", sayTeam("nothing_lost")));
  box.setAttribute("role", "alert");
  box.tabIndex = -1;
  return box;
}
