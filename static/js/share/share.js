/**
 * The sharing panel. Share: a viewing link with its QR code and a join code for players; apart from it a coaching
 * link for an assistant; and the links, each to be turned off. Devices: see devices.js.
 */

import { access, codes, joinCode, keepLink, keptLink, newLink, noteCodes } from "./links-api.js";
import { devicesPart } from "./devices.js";
import { drawLinks } from "./link-list.js";
import { bare, bigCode, giving, make, qrPicture } from "./link-elements.js";
import { sayShare, sayViewers } from "../words/share-words.js";
import { wearStyle } from "../device/styles.js";
import { sayGeneral } from "../words/general-words.js";
import { parted } from "../words/sayer.js";

/**
 * @typedef {"share" | "devices"} Tab
 */

/** How often the numbers and the list are looked at again, milliseconds. */
const LOOK_EVERY = 4000;

/** What the coach's page calls. @param {{state: import("../state/state.js").State}} desk @param {Tab} [tab] */
export function openShare({ state }, tab) {
  // Tapped before the server has told the board: the page names it as well.
  return open(state.board?.id ?? String(document.body.dataset.board), document.body, tab);
}

/**
 * Open the panel.
 * @param {string} board
 * @param {HTMLElement} root  where the dialog is put
 * @param {Tab} [first]  what is shown first
 * @returns {HTMLDialogElement}
 */
export function open(board, root, first = "share") {
  void wearStyle("share"); // the board's page does not wait for it
  const dialog = /** @type {HTMLDialogElement} */ (make("dialog", { class: "sharing" }));
  dialog.setAttribute("aria-labelledby", "sharing-title");
  const trouble = make("p", { class: "trouble", role: "alert" });
  trouble.hidden = true;
  const viewers = make("p", { class: "viewers", role: "status" });
  const players = make("div", { class: "giveaway" });
  const assistant = make("div", { class: "assistant" });
  const links = make("div", {});
  const sharing = make("div", {});
  const devices = make("div", {});
  const { row: tabs, choose } = tabsOf({ share: sharing, devices });
  const title = make("h2", {}, sayShare("title"));
  title.id = "sharing-title";
  title.tabIndex = -1;
  title.autofocus = true; // rather than a button that could be pressed by mistake
  dialog.append(
    make("header", {}, title, viewers, make("button", { class: "shut", label: sayShare("close"), on: () => dialog.close() }, "×")),
    tabs,
    trouble,
    sharing,
    devices,
  );
  sharing.append(
    make("section", {}, make("h3", {}, sayShare("players")), players, make("p", { class: "hint" }, sayShare("players_hint"))),
    make("section", {}, make("h3", {}, sayShare("assistant")), make("p", { class: "hint" }, sayShare("assistant_hint")), assistant),
    make("section", {}, make("h3", {}, sayShare("links")), links),
  );
  choose(first);

  /** @param {unknown} error */
  const complain = (error) => {
    trouble.textContent = error instanceof Error ? error.message : sayGeneral("no_line");
    trouble.hidden = false;
    trouble.scrollIntoView({ block: "nearest" });
  };
  /** @param {() => Promise<unknown>} work */
  const attempt = async (work) => {
    try {
      await work();
      trouble.hidden = true;
    } catch (error) {
      complain(error);
    }
    shown = "";
    others.forget();
    await look().catch(complain);
  };
  const others = devicesPart(board, devices, attempt);

  let shown = "";
  let linkId = "";
  /** The link on show has been turned off, here or elsewhere: nobody should photograph it any more. */
  const dropLink = () => {
    linkId = "";
    keepLink(board, null);
    players.replaceChildren(
      make("p", {}, sayShare("link_off")),
      make("button", { class: "plain", on: () => attempt(fill) }, sayShare("make_view")),
    );
  };
  const look = async () => {
    const found = await access(board);
    viewers.textContent = sayViewers(found.viewers);
    if (linkId && !found.links.some(({ id }) => id === linkId)) dropLink();
    noteCodes(board, found);
    others.draw(found);
    const now = JSON.stringify([found.links, Math.floor(Date.now() / 60_000)]);
    // A row in which somebody is answering is not pulled away.
    if (now === shown || (shown && links.querySelector(".asking"))) return found;
    shown = now;
    drawLinks(links, found, attempt);
    return found;
  };

  const fill = async () => {
    const found = await look();
    let link = keptLink(board);
    if (!link || !found.links.some(({ id }) => id === link?.id)) {
      link = await newLink(board, "view", sayShare("players_link"));
      keepLink(board, link);
      shown = "";
      await look();
    }
    linkId = link.id;
    const code = make("div", { class: "join" });
    players.replaceChildren(
      make("figure", {}, qrPicture(link.qr, sayShare("picture")), make("figcaption", {}, sayShare("photograph"))),
      make("div", { class: "other" }, code, giving(link.url, sayShare("players"))),
    );
    if (link.note) players.prepend(make("p", { class: "note" }, link.note));
    await showCode(board, link.id, code, attempt);
  };

  assistant.append(make("button", {
    class: "plain",
    on: () => attempt(async () => {
      const link = await newLink(board, "coach", sayShare("assistant_link"));
      assistant.replaceChildren(
        ...(link.note ? [make("p", { class: "note" }, link.note)] : []),
        qrPicture(link.qr, sayShare("coach_picture")),
        make("div", { class: "other" }, make("p", { class: "hint" }, sayShare("coach_made")), giving(link.url, sayShare("assistant"))),
      );
    }),
  }, sayShare("make_coach")));

  const timer = setInterval(() => {
    look().catch(() => {}); // the next look may succeed; what is shown stays
    tick(sharing, board);
    others.tick();
  }, LOOK_EVERY);
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog && outside(dialog, event)) dialog.close();
  });
  dialog.addEventListener("close", () => {
    clearInterval(timer);
    dialog.remove();
  });
  root.append(dialog);
  dialog.showModal();
  fill().catch(complain);
  return dialog;
}

/**
 * Show the join code, a new one if there is none that works.
 * @param {string} board
 * @param {string} link  the viewing link it is shown with
 * @param {HTMLElement} root
 * @param {import("./link-list.js").Attempt} attempt
 */
async function showCode(board, link, root, attempt) {
  const code = await joinCode(board, link);
  const half = code.code.length / 2;
  root.replaceChildren(
    make("p", { class: "where" }, ...parted(sayShare("or_type", { address: "{address}" }), { address: make("strong", {}, bare(code.url)) })),
    bigCode([code.code.slice(0, half), code.code.slice(half)]),
    make("p", { class: "left" }, ""),
    make("button", { class: "plain again", on: () => attempt(() => showCode(board, link, root, attempt)) }, sayShare("new_code")),
  );
  tick(root, board);
}

/** Say how long the code still works. @param {HTMLElement} root @param {string} board */
function tick(root, board) {
  const left = root.querySelector(".left");
  const code = codes.get(board);
  if (!left || !code) return;
  const minutes = Math.ceil((code.until - Date.now()) / 60_000);
  const text = minutes > 0 ? sayShare("minutes", { n: minutes }) : sayShare("ran_out");
  if (left.textContent !== text) left.textContent = text;
  left.parentElement?.classList.toggle("over", minutes <= 0);
}

/**
 * Two parts of which one is shown.
 * @param {Record<Tab, HTMLElement>} parts
 */
function tabsOf(parts) {
  const row = make("div", { class: "tabs", role: "tablist" });
  const names = /** @type {Tab[]} */ (Object.keys(parts));
  /** @param {Tab} chosen */
  const choose = (chosen) => {
    for (const name of names) {
      parts[name].hidden = name !== chosen;
      const tab = /** @type {HTMLElement} */ (row.querySelector(`#tab-${name}`));
      tab.setAttribute("aria-selected", String(name === chosen));
      tab.tabIndex = name === chosen ? 0 : -1;
    }
  };
  for (const name of names) {
    const tab = make("button", { role: "tab", on: () => choose(name) }, sayShare(`tabs.${name}`));
    tab.id = `tab-${name}`;
    tab.setAttribute("aria-controls", `part-${name}`);
    parts[name].id = `part-${name}`;
    parts[name].setAttribute("role", "tabpanel");
    parts[name].setAttribute("aria-labelledby", tab.id);
    tab.addEventListener("keydown", ({ key }) => {
      if (key !== "ArrowLeft" && key !== "ArrowRight") return;
      const other = names.find((each) => each !== name) ?? name;
      choose(other);
      /** @type {HTMLElement | null} */ (row.querySelector(`#tab-${other}`))?.focus();
    });
    row.append(tab);
  }
  return { row, choose };
}

/** @param {HTMLElement} dialog @param {MouseEvent} event */
function outside(dialog, { clientX, clientY }) {
  const { left, right, top, bottom } = dialog.getBoundingClientRect();
  return clientX < left || clientX > right || clientY < top || clientY > bottom;
}
