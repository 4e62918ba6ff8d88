/** The parts of the player's page that are neither court nor sentences: the state of the line, the numbers. */

import { sayViewer } from "../words/viewer-words.js";

/** Away for less than this, nothing is in doubt, milliseconds. */
const NAP = 3000;

/** The element with this id, which the page is known to have. @param {string} id @returns {HTMLElement} */
export function el(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`The page has no ${id}.`);
  return found;
}

/**
 * Say truthfully how this phone stands to the coach's board.
 * @param {"live" | "catching up" | "offline" | "gone"} state
 * @param {string} notice  the server's sentence, shown while the phone is not live
 */
export function showStatus(state, notice) {
  const word = { live: sayViewer("live"), "catching up": sayViewer("catching"), offline: sayViewer("offline"), gone: sayViewer("off") }[state];
  const status = el("status");
  status.dataset.state = state;
  if (el("state").textContent !== word) el("state").textContent = word;
  const sentence = state === "live" ? "" : notice;
  if (el("notice").textContent !== sentence) el("notice").textContent = sentence;
  el("notice").hidden = !sentence;
  document.body.classList.toggle("gone", state === "gone");
}

/**
 * One button a number.
 * @param {HTMLElement} root
 * @param {number[]} players  on the floor
 * @param {import("../state/roster.js").Roster} roster
 * @param {number | null} me
 */
export function drawPicker(root, players, roster, me) {
  const sorted = [...players].sort((a, b) => Number(roster.face(a)) - Number(roster.face(b)) || a - b);
  root.replaceChildren(
    ...sorted.map((player) => {
      const button = document.createElement("button");
      button.type = "button";
      button.dataset.number = roster.label(player);
      button.textContent = roster.face(player);
      button.setAttribute("aria-label", sayViewer("pick", { n: roster.label(player) }));
      button.setAttribute("aria-pressed", String(player === me));
      return button;
    }),
  );
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
