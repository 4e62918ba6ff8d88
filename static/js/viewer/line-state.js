/** The parts of the player's page that are neither court nor sentences: above all the state of the line. */

import { sayViewer } from "../words/viewer-words.js";

/** Away for less than this, nothing is in doubt, milliseconds. */
const NAP = 3000;
/** After so long without a change the page says since when nothing has come, milliseconds. */
const QUIET = 120_000;
/** For so long a day's name is enough, milliseconds. */
const SIX_DAYS = 6 * 86_400_000;

/** The element with this id, which the page is known to have. @param {string} id @returns {HTMLElement} */
export function el(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`The page has no ${id}.`);
  return found;
}

/**
 * @typedef {"live" | "back" | "catching up" | "offline" | "gone"} LineState
 * @typedef {object} Known
 * @property {import("../state/link.js").LinkState} link
 * @property {boolean} sure  the server has said how the board stands since the line was last in doubt
 * @property {boolean} follow  new actions play as they come; otherwise the player is looking back
 * @property {boolean} moving  somebody is on his way because the coach has just played it
 * @property {number} at  when the board last changed, milliseconds since 1970, 0 for not known
 */

/**
 * How this phone stands to the coach's board, and since when nothing has come although it would have.
 * @param {Known} known
 * @param {number} now  milliseconds since 1970
 * @returns {{state: LineState, quiet: number}}  quiet: since when, 0 for not at all
 */
export function lineState({ link, sure, follow, moving, at }, now) {
  const line = link === "live" && !sure ? "catching up" : link;
  const state = line !== "live" ? line : follow ? "live" : "back";
  return { state, quiet: state === "live" && !moving && now - at > QUIET ? at : 0 };
}

/**
 * A moment as one says it: the time alone today, the day with it in the week before, else the date.
 * @param {number} then @param {number} now  milliseconds since 1970
 * @param {string} tag  of the language
 */
export function momentWords(then, now, tag) {
  const time = new Intl.DateTimeFormat(tag, { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(then);
  const [day, today] = [new Date(then).toDateString(), new Date(now).toDateString()];
  if (day === today) return time;
  const near = now - then < SIX_DAYS;
  return `${new Intl.DateTimeFormat(tag, near ? { weekday: "long" } : { day: "numeric", month: "long" }).format(then)} ${time}`;
}

/**
 * @param {LineState} state
 * @param {string} since  since when nothing has come, "" for not at all
 * @param {string} notice  the server's sentence, shown while the phone is not live
 */
export function showStatus(state, since, notice) {
  const word = {
    live: sayViewer("live"), back: sayViewer("back"), "catching up": sayViewer("catching"), offline: sayViewer("offline"), gone: sayViewer("off"),
  }[state];
  el("status").dataset.state = since ? "quiet" : state;
  write("state", word);
  write("since", since && sayViewer("nothing_since", { since }));
  write("notice", state === "live" || state === "back" ? "" : notice);
  el("notice").hidden = !el("notice").textContent;
  document.body.classList.toggle("gone", state === "gone");
}

/** @param {string} id @param {string} text */
function write(id, text) {
  if (el(id).textContent !== text) el(id).textContent = text;
}

/** Call when the phone comes back after being away for longer than a moment. @param {() => void} back */
export function whenReturning(back) {
  let left = 0;
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") left = Date.now();
    else if (left && Date.now() - left > NAP) back();
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) back();
  });
}
