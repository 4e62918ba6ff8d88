/** The devices that coach a board: their list, adding one, the recovery sheet, and this device's own copy. */

import { askToKeep, storageKept } from "../device/kept-copy.js";
import { newDeviceCode, rename, turnOff } from "./links-api.js";
import { offButton } from "./link-list.js";
import { bare, bigCode, make, qrPicture } from "./link-elements.js";
import { ago, dayOf, sayShare } from "../words/share-words.js";
import { listed, parted } from "../words/sayer.js";

/**
 * @typedef {import("./links-api.js").Access} Access
 * @typedef {import("./links-api.js").DeviceCode} DeviceCode
 * @typedef {import("./links-api.js").KeyRow} KeyRow
 * @typedef {import("./links-api.js").Role} Role
 * @typedef {import("./link-list.js").Attempt} Attempt
 */

/**
 * Put the parts into the panel.
 * @param {string} board
 * @param {HTMLElement} root
 * @param {Attempt} attempt
 * @returns {{draw: (found: Access) => void, forget: () => void, tick: () => void}}
 */
export function devicesPart(board, root, attempt) {
  const list = make("ul", {});
  const adding = addPart(board, attempt);
  const sheet = make("section", {});
  root.append(
    make("section", {}, make("h3", {}, sayShare("devices")), make("p", { class: "hint" }, sayShare("devices_hint")), list),
    adding.element,
    sheet,
    storagePart(),
  );
  let shown = "";
  return {
    draw(found) {
      adding.draw(found);
      const now = JSON.stringify([found.keys, found.sheet, found.role, Math.floor(Date.now() / 60_000)]);
      // A row in which somebody is answering or typing is not pulled away.
      if (now === shown || (shown && root.querySelector(".asking"))) return;
      shown = now;
      drawDevices(list, found, attempt);
      drawSheet(sheet, board, found, attempt);
    },
    forget() {
      shown = "";
    },
    tick: adding.tick,
  };
}

/** @param {HTMLElement} list @param {Access} found @param {Attempt} attempt */
function drawDevices(list, found, attempt) {
  const now = Date.now() / 1000;
  // This device first, then whoever coached last.
  const byUse = [...found.keys].sort((a, b) => Number(b.this) - Number(a.this) || b.seen - a.seen);
  list.replaceChildren(...byUse.map((key) => keyRow(key, now, found.role === "head_coach" || key.this, attempt)));
}

/** @param {KeyRow} key @param {number} now @param {boolean} may  change it @param {Attempt} attempt */
function keyRow(key, now, may, attempt) {
  const came = !key.came ? [] : [key.came.kind === "sheet" ? sayShare("came_by_sheet") : sayShare("came_by", { by: key.came.by })];
  const about = listed([sayShare(`roles.${key.role}`), sayShare("seen", { when: ago(key.seen, now) }), ...came, sayShare("made", { when: ago(key.made, now) })], "facts");
  const name = make("strong", {}, key.name);
  const row = make("li", key.this ? { class: "here" } : {}, make("p", {}, name, make("span", {}, about)));
  if (key.this) name.after(make("em", {}, sayShare("here")));
  if (!may) return row;
  row.append(
    make("button", { class: "plain", label: sayShare("rename_for", { name: key.name }), on: () => renameForm(row, key, attempt) }, sayShare("rename")),
    offButton(row, key.name, key.this ? sayShare("sure_self") : sayShare("sure_device"), () => attempt(() => turnOff("keys", key.id))),
  );
  return row;
}

/** @param {HTMLElement} row @param {KeyRow} key @param {Attempt} attempt */
function renameForm(row, key, attempt) {
  const field = /** @type {HTMLInputElement} */ (make("input", { label: sayShare("rename_label") }));
  field.value = key.name;
  field.maxLength = 40;
  field.required = true;
  const form = make("form", {}, field, make("button", { class: "primary", submit: true }, sayShare("keep_name")));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    attempt(() => rename(key.id, field.value));
  });
  row.classList.add("asking");
  row.replaceChildren(form);
  field.focus();
  field.select();
}

/**
 * Making a code for one more device, and saying when it has come.
 * @param {string} board
 * @param {Attempt} attempt
 */
function addPart(board, attempt) {
  const choice = make("fieldset", { class: "roles" }, make("legend", {}, sayShare("add_role")));
  for (const role of /** @type {Role[]} */ (["head_coach", "assistant"])) {
    const input = Object.assign(document.createElement("input"), { type: "radio", name: "role", value: role });
    input.checked = role === "head_coach";
    choice.append(make("label", {}, input, make("span", {}, sayShare(`add_roles.${role}`))));
  }
  choice.hidden = true;
  const said = make("p", { class: "said", role: "status" });
  const place = make("div", { class: "newcomer" });
  const button = make("button", { class: "plain", on: () => void attempt(begin) }, sayShare("make_device_code"));
  /** @type {(DeviceCode & {until: number}) | null} */
  let code = null;
  const begin = async () => {
    const chosen = choice.hidden ? "assistant" : choice.querySelector("input:checked")?.getAttribute("value");
    const made = await newDeviceCode(board, chosen === "head_coach" ? "head_coach" : "assistant");
    code = { ...made, until: Date.now() + made.expires_s * 1000 };
    said.textContent = "";
    button.textContent = sayShare("another_code");
    place.replaceChildren(
      make("div", { class: "other" },
        make("p", { class: "where" }, ...parted(sayShare("device_code_steps", { address: "{address}" }), { address: make("strong", {}, bare(made.url)) })),
        bigCode(made.code.split(" ")),
        make("p", { class: "left" }),
        make("p", { class: "hint" }, sayShare("device_code_once"))),
      make("figure", {}, qrPicture(made.qr, sayShare("device_code_picture")), make("figcaption", {}, sayShare("device_camera"))),
    );
    if (made.note) place.prepend(make("p", { class: "note" }, made.note));
    tick();
    place.scrollIntoView({ block: "nearest" });
  };
  const tick = () => {
    const left = place.querySelector(".left");
    if (!left || !code) return;
    const minutes = Math.ceil((code.until - Date.now()) / 60_000);
    const text = minutes > 0 ? sayShare("minutes", { n: minutes }) : sayShare("ran_out");
    if (left.textContent !== text) left.textContent = text;
    left.parentElement?.classList.toggle("over", minutes <= 0);
  };
  /** @param {Access} found */
  const draw = (found) => {
    choice.hidden = found.role !== "head_coach";
    const come = code && found.keys.find(({ came }) => came?.id === code?.id);
    if (!come) return;
    code = null;
    place.replaceChildren();
    said.textContent = sayShare("added", { name: come.name });
  };
  const element = make("section", {}, make("h3", {}, sayShare("add")), make("p", { class: "hint" }, sayShare("add_hint")), choice, said, place, button);
  return { element, draw, tick };
}

/** @param {HTMLElement} root @param {string} board @param {Access} found @param {Attempt} attempt */
function drawSheet(root, board, { role, sheet }, attempt) {
  root.hidden = role !== "head_coach";
  if (root.hidden) return;
  const works = sheet !== null && sheet.used === null;
  const state = !sheet ? sayShare("sheet_none") : sheet.used !== null ? sayShare("sheet_used", { day: dayOf(sheet.used) }) : sayShare("sheet_works", { day: dayOf(sheet.made) });
  const form = /** @type {HTMLFormElement} */ (make("form", {},
    make("button", { class: "plain", submit: true }, sheet ? sayShare("sheet_again") : sayShare("sheet_make"))));
  form.method = "post";
  form.action = `/sheet/${board}`;
  const row = make("div", { class: "row" }, make("p", {}, make("strong", {}, state)), form);
  if (works) row.append(offButton(row, sayShare("sheet"), sayShare("sheet_sure"), () => attempt(() => turnOff("sheets", sheet.id))));
  root.replaceChildren(make("h3", {}, sayShare("sheet")), make("p", { class: "hint" }, sayShare("sheet_hint")), row);
}

/** Whether the browser keeps what is stored here, and asking it to. */
function storagePart() {
  const said = make("p", { class: "hint", role: "status" }, sayShare("storage_look"));
  const button = make("button", { class: "plain", on: () => void ask() }, sayShare("storage_ask"));
  button.hidden = true;
  const look = async () => {
    const state = await storageKept().catch(() => /** @type {const} */ ("none"));
    said.textContent = { kept: sayShare("storage_kept"), "may clear": sayShare("storage_may_clear"), none: sayShare("storage_none") }[state];
    button.hidden = state !== "may clear";
  };
  const ask = async () => {
    await askToKeep();
    await look();
    if (!button.hidden) said.textContent = listed([sayShare("storage_no"), sayShare("storage_may_clear")], "sentences");
  };
  void look();
  return make("section", {}, make("h3", {}, sayShare("storage")), said, button);
}
