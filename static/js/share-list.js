/** The list of links and devices that can open a board, each with a way to turn it off. */

import { rename, turnOff } from "./share-api.js";
import { make } from "./share-parts.js";
import { ago, WORDS } from "./share-words.js";

/**
 * @typedef {import("./share-api.js").Access} Access
 * @typedef {import("./share-api.js").KeyRow} KeyRow
 * @typedef {import("./share-api.js").LinkRow} LinkRow
 * @typedef {(work: () => Promise<unknown>) => Promise<void>} Attempt  does it, shows the sentence if it fails, looks again
 */

/**
 * @param {HTMLElement} root
 * @param {Access} access
 * @param {Attempt} attempt
 */
export function drawAccess(root, access, attempt) {
  const now = Date.now() / 1000;
  // The newest link first; this device first, then whoever coached last.
  const links = [...access.links].reverse().map((link) => linkRow(link, now, attempt));
  const byUse = [...access.keys].sort((a, b) => Number(b.this) - Number(a.this) || b.seen - a.seen);
  const keys = byUse.map((key) => keyRow(key, now, attempt));
  root.replaceChildren(
    make("h4", {}, WORDS.devices),
    make("ul", {}, ...keys),
    make("h4", {}, WORDS.links),
    links.length ? make("ul", {}, ...links) : make("p", { class: "hint" }, WORDS.noLinks),
  );
}

/** @param {LinkRow} link @param {number} now @param {Attempt} attempt */
function linkRow(link, now, attempt) {
  const about = [WORDS.kinds[link.kind], WORDS.made(ago(link.made, now)), WORDS.opened(link.uses)].join(" · ");
  const row = make("li", {}, make("p", {}, make("strong", {}, link.name), make("span", {}, about)));
  row.append(offButton(row, link.name, WORDS.sure, () => attempt(() => turnOff("links", link.id))));
  return row;
}

/** @param {KeyRow} key @param {number} now @param {Attempt} attempt */
function keyRow(key, now, attempt) {
  const about = [WORDS.roles[key.role], WORDS.made(ago(key.made, now)), WORDS.seen(ago(key.seen, now))].join(" · ");
  const name = make("strong", {}, key.name);
  const row = make("li", key.this ? { class: "here" } : {}, make("p", {}, name, make("span", {}, about)));
  if (key.this) name.after(make("em", {}, WORDS.here));
  row.append(
    make("button", { class: "plain", on: () => renameForm(row, key, attempt) }, WORDS.rename),
    offButton(row, key.name, key.this ? WORDS.sureSelf : WORDS.sure, () => attempt(() => turnOff("keys", key.id))),
  );
  return row;
}

/**
 * A button that asks once more in its own row, since turning off cannot be taken back.
 * @param {HTMLElement} row
 * @param {string} name
 * @param {string} question
 * @param {() => void} act
 */
function offButton(row, name, question, act) {
  const ask = () => {
    const before = [...row.childNodes];
    const keep = make("button", { class: "plain", on: () => (row.replaceChildren(...before), row.classList.remove("asking"), off.focus()) }, WORDS.no);
    row.classList.add("asking");
    row.replaceChildren(
      make("p", {}, make("strong", {}, name), make("span", { role: "alert" }, question)),
      keep,
      make("button", { class: "primary", on: act }, WORDS.yes),
    );
    keep.focus();
  };
  const off = make("button", { class: "plain", label: WORDS.offFor(name), on: ask }, WORDS.off);
  return off;
}

/** @param {HTMLElement} row @param {KeyRow} key @param {Attempt} attempt */
function renameForm(row, key, attempt) {
  const field = /** @type {HTMLInputElement} */ (make("input", { label: WORDS.renameLabel }));
  field.value = key.name;
  field.maxLength = 40;
  field.required = true;
  const form = make("form", {}, field, make("button", { class: "primary", submit: true }, WORDS.keepName));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    attempt(() => rename(key.id, field.value));
  });
  row.classList.add("asking");
  row.replaceChildren(form);
  field.focus();
  field.select();
}
