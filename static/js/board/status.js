/** The lines about the board itself: whether it is saved, who watches, which stage is taught; and what is spoken. */

import { sayBoard, sayNotSavedLong, saySavedHereLong } from "../words/board-words.js";
import { callsOf, sentenceOf, sentencesOf } from "./step-sentences.js";
import { titleOfStage } from "../words/rule-set-words.js";
import { sayGeneral } from "../words/general-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/wire.js").StepWire} StepWire
 */

/** @param {string} id */
export const element = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/** @param {HTMLElement} line @param {string} text */
function write(line, text) {
  if (line.textContent !== text) line.textContent = text;
}

/**
 * Where what was done stands, as it is: on the server, on this device, or nowhere yet.
 * @param {State["link"]} link @param {State["pending"]} pending @param {{waiting: number, kept: number}} plays
 */
function saying(link, pending, plays) {
  const count = pending.length + plays.waiting;
  if (link === "live") return count > 2 ? sayBoard("sending", { n: count }) : count ? sayBoard("saving") : sayBoard("saved");
  if (count) return isSafe(pending, plays) ? sayBoard("saved_here", { n: count }) : sayBoard("not_saved", { n: count });
  return link === "offline" ? sayBoard("offline") : sayBoard("catching");
}

/** @param {State} state @param {{waiting: number, kept: number}} [plays]  changes of them wait as well */
export function drawStatus({ known, board, link, pending, viewers, notice, elsewhere }, plays = { waiting: 0, kept: 0 }) {
  const status = element("status");
  status.dataset.link = link;
  write(status, saying(link, pending, plays));
  status.title = explained(link, pending, plays);
  write(element("watching"), viewers ? ` ${sayBoard("watching", { n: viewers })}` : "");
  const stage = element("stage");
  stage.toggleAttribute("hidden", !known || board.stage === null);
  if (known && board.stage !== null) write(stage, sayBoard("stage_now", { title: titleOfStage(board.rules, board.stage, board.stages[board.stage] ?? "") }));
  element("apart").toggleAttribute("hidden", !elsewhere);
  element("gone").toggleAttribute("hidden", link !== "gone");
  if (link === "gone") element("gone-words").textContent = notice;
}

/** The same at length, for whoever asks. @param {State["link"]} link @param {State["pending"]} pending @param {{waiting: number, kept: number}} plays */
function explained(link, pending, plays) {
  const count = pending.length + plays.waiting;
  if (link === "live" || !count) return "";
  return isSafe(pending, plays) ? saySavedHereLong(count) : sayNotSavedLong(count);
}

/** Whether this device would still know all of it after closing the page. @param {State["pending"]} pending @param {{waiting: number, kept: number}} plays */
function isSafe(pending, plays) {
  return pending.every(({ kept }) => kept) && plays.kept === plays.waiting;
}

/** @type {StepWire | undefined} */
let shown;

/** Say the step on show to those who listen. @param {StepWire | undefined} step @param {import("../words/speaker.js").Words} words */
export function tell(step, words) {
  if (shown === step) return;
  shown = step;
  if (!step) return;
  element("live").textContent = listed([...callsOf(step, words), sayGeneral("full_stop", { words: sentenceOf(step, words) }), ...sentencesOf(step, words)], "sentences");
}

/**
 * What waits to be sent beside what was played: plays, and ink.
 * @param {import("../plays/plays.js").PlaysOnBoard | null} plays @param {import("../ink/ink.js").Ink | null} ink
 */
export function waitsOf(plays, ink) {
  const [book, strokes] = [plays?.book, ink?.waits];
  return { waiting: (book?.waiting ?? 0) + (strokes?.waiting ?? 0), kept: (book?.kept ?? 0) + (strokes?.kept ?? 0) };
}
