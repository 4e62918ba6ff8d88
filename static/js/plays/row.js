/** One play in the list: a tap opens it; what else can be done with it folds out below. */

import { svg } from "../court/court.js";
import { button, make } from "../ui/dom.js";
import { otherWays } from "./apply.js";
import { occasionOf } from "./bench-row.js";
import { sayPlays, sayToday } from "../words/plays-words.js";
import { gist, spoken, titleOf, stopsOf } from "./search.js";
import { sayGeneral, sayLabel } from "../words/general-words.js";
import { listed, parted } from "../words/sayer.js";

/**
 * @typedef {import("./apply.js").Play} Play
 * @typedef {import("../words/speaker.js").Words} Words
 *
 * @typedef {object} RowWays
 * @property {() => void} open
 * @property {() => void} fold  show or hide the rest
 * @property {() => void} pin
 * @property {(by: -1 | 1) => void} move  among the pinned ones of its occasion
 * @property {() => void} edit
 * @property {() => void} duplicate
 * @property {() => void} remove
 * @property {() => void} renew
 */

/** A pin of our own. */
export function pinMark() {
  return svg("svg", { viewBox: "0 0 24 24", class: "pin", "aria-hidden": "true" }, [
    svg("path", { class: "solid", d: "M8.5 3.5h7l-1 6 3 4h-11l3-4z" }),
    svg("path", { d: "M12 14v7" }),
  ]);
}

/** Three points. */
function dots() {
  return svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" },
    [5, 12, 19].map((cx) => svg("circle", { cx, cy: 12, r: 1.6, class: "solid" })));
}

/** What the formation is called. @param {Play} play @param {Words} words */
export function formationOf(play, words) {
  return play.formation.includes("@") ? play.formation_name : words.formation(play.formation);
}

/**
 * @param {Play} play
 * @param {Words} words
 * @param {RowWays} ways
 * @param {{unfolded: boolean, form: HTMLElement | null, here: boolean}} how  here: it is on the board
 */
export function drawRow(play, words, ways, { unfolded, form, here }) {
  const li = make("li", here ? "play here" : "play");
  li.dataset.play = play.id;
  const title = titleOf(play, words, sayPlays("unnamed"));
  const others = otherWays(play);
  const facts = listed([formationOf(play, words), sayGeneral("steps", { n: play.line.length }), ...(others ? [sayPlays("ways", { n: others })] : []),
    ...(occasionOf(play) ? [sayPlays(`occasions.${occasionOf(play)}`)] : [])], "facts");
  const name = make("strong", "", title);
  if (play.pinned) name.replaceChildren(pinMark(), ...parted(sayLabel(sayPlays("pinned_mark"), "{title}"), { title: make("span", "", title) })
    .map((part) => (part instanceof Node ? part : make("span", "unseen", part))));
  const open = make("button", "open", name);
  open.type = "button";
  open.dataset.focus = `open ${play.id}`;
  if (play.name && play.line.length) open.append(make("span", "gist", gist(play, words)));
  const more = make("span", "facts", facts);
  if (play.today || play.stops) more.append(make("em", "", sayPlays("changed")));
  for (const tag of play.tags) more.append(make("i", "", tag));
  open.append(more);
  if (here) open.setAttribute("aria-current", "true");
  open.addEventListener("click", ways.open);
  const fold = button("tool", dots(), ways.fold, sayPlays("more", { name: title }));
  fold.dataset.focus = `fold ${play.id}`;
  fold.setAttribute("aria-expanded", String(unfolded));
  li.append(make("div", "head", open, fold));
  if (unfolded) li.append(form ?? rest(play, words, ways));
  return li;
}

/** @param {Play} play @param {Words} words @param {RowWays} ways */
function rest(play, words, ways) {
  const way = (/** @type {string} */ word, /** @type {() => void} */ act) => {
    const made = button("plain", word, act);
    made.dataset.focus = `${word} ${play.id}`;
    return made;
  };
  const acts = make("p", "ways", way(play.pinned ? sayPlays("unpin") : sayPlays("pin"), ways.pin), way(sayPlays("rename"), ways.edit),
    way(sayPlays("duplicate"), ways.duplicate), printLink(play), way(sayPlays("remove"), ways.remove));
  if (play.pinned) acts.children[0].after(way(sayPlays("up"), () => ways.move(-1)), way(sayPlays("down"), () => ways.move(1)));
  const block = make("div", "rest");
  if (play.note) block.append(make("p", "note", play.note));
  if (play.stops) block.append(make("p", "law", stopsOf(play.stops, words)));
  block.append(acts);
  const { today } = play;
  if (!today) return block;
  const deleted = today.why !== null && today.legal === today.of;
  const said = deleted ? [String(today.why)] : [sayToday(today.legal, today.of), spoken(today.why ?? "", words), sayPlays("stays")];
  block.append(make("p", "law", listed(said.filter(Boolean), "sentences")));
  if (!deleted && today.legal) block.append(make("p", "ways", way(sayPlays("renew"), ways.renew)));
  return block;
}

/** Paper is drawn by the server. @param {Play} play */
function printLink(play) {
  const link = make("a", "plain", sayPlays("print"));
  link.href = `/board/${document.body.dataset.board}/print?chain=${encodeURIComponent(play.id)}`;
  link.dataset.focus = `print ${play.id}`;
  return link;
}
