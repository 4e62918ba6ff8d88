/** The part of the menu that says what the chain amounts to: how long, how far, who is in the lane. */

import { fetched, make } from "./elements.js";
import { sayBoard } from "../words/board-words.js";
import { sayGeneral } from "../words/general-words.js";

/**
 * @typedef {import("../words/speaker.js").Words} Words
 * @typedef {{seconds: number, players: Record<string, {metres: number, lane_seconds: number}>}} Report
 */

/** @param {string} board @param {Words} words */
export function reportPart(board, words) {
  const body = make("div", "report", make("p", "hint", sayGeneral("one_moment")));
  body.setAttribute("aria-live", "polite");
  const part = make("details", "ask", make("summary", "", sayBoard("report")), body);
  part.addEventListener("toggle", () => {
    if (!part.open) return;
    fetched(`board/${board}/report`).then(
      (/** @type {Report} */ report) => body.replaceChildren(...drawn(report, words)),
      () => body.replaceChildren(make("p", "hint", sayBoard("no_report"))),
    );
  });
  return part;
}

/** @param {Report} report @param {Words} words */
function drawn({ seconds, players }, words) {
  if (!seconds) return [make("p", "hint", sayBoard("report_none"))];
  const one = (/** @type {number} */ figure) => figure.toFixed(1);
  const head = make("tr", "", ...[sayBoard("player"), sayBoard("metres"), sayBoard("lane_seconds")].map((word) => {
    const cell = make("th", "", word);
    cell.scope = "col";
    return cell;
  }));
  const rows = Object.entries(players).map(([player, { metres, lane_seconds: lane }]) => {
    const who = make("th", "", words.player(Number(player)));
    who.scope = "row";
    return make("tr", "", who, make("td", "", one(metres)), make("td", "", one(lane)));
  });
  return [make("p", "", sayBoard("report_of", { seconds: one(seconds) })), make("table", "", make("thead", "", head), make("tbody", "", ...rows))];
}
