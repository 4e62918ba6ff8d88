/** The list of links that open a board, and rows that can be turned off. */

import { turnOff } from "./links-api.js";
import { make } from "./link-elements.js";
import { ago, sayOpened, sayShare } from "../words/share-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("./links-api.js").Access} Access
 * @typedef {import("./links-api.js").LinkRow} LinkRow
 * @typedef {(work: () => Promise<unknown>) => Promise<void>} Attempt  does it, shows the sentence if it fails, looks again
 */

/**
 * @param {HTMLElement} root
 * @param {Access} access
 * @param {Attempt} attempt
 */
export function drawLinks(root, access, attempt) {
  const now = Date.now() / 1000;
  const links = [...access.links].reverse().map((link) => linkRow(link, now, attempt)); // the newest first
  root.replaceChildren(links.length ? make("ul", {}, ...links) : make("p", { class: "hint" }, sayShare("no_links")));
}

/** @param {LinkRow} link @param {number} now @param {Attempt} attempt */
function linkRow(link, now, attempt) {
  const about = listed([sayShare(`kinds.${link.kind}`), sayShare("made", { when: ago(link.made, now) }), sayOpened(link.uses)], "comma");
  const row = make("li", {}, make("p", {}, make("strong", {}, link.name), make("span", {}, about)));
  const sure = link.kind === "coach" ? sayShare("sure_coach") : link.by_code ? sayShare("sure_phone") : sayShare("sure");
  row.append(offButton(row, link.name, sure, () => attempt(() => turnOff("links", link.id))));
  return row;
}

/**
 * A button that asks once more in its own row, since turning off cannot be taken back.
 * @param {HTMLElement} row
 * @param {string} name
 * @param {string} question
 * @param {() => void} act
 */
export function offButton(row, name, question, act) {
  const ask = () => {
    const before = [...row.childNodes];
    const keep = make("button", { class: "plain", on: () => (row.replaceChildren(...before), row.classList.remove("asking"), off.focus()) }, sayShare("no"));
    row.classList.add("asking");
    row.replaceChildren(
      make("p", {}, make("strong", {}, name), make("span", { role: "alert" }, question)),
      keep,
      make("button", { class: "primary", on: act }, sayShare("yes")),
    );
    keep.focus();
  };
  const off = make("button", { class: "plain", label: sayShare("off_for", { name }), on: ask }, sayShare("off"));
  return off;
}
