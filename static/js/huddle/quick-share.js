/** One tap, and the whole huddle can follow: a code to photograph and one to type, as large as the screen allows. */

import { button, make } from "../menu/elements.js";
import { access, joinCode, keepLink, keptLink, newLink, noteCodes } from "../share/links-api.js";
import { bare, bigCode, qrPicture } from "../share/link-elements.js";
import { sayShare, sayViewers } from "../words/share-words.js";
import { stayAwake } from "../device/wake.js";
import { sayHuddle } from "../words/huddle-words.js";
import { sayGeneral } from "../words/general-words.js";
import { parted } from "../words/sayer.js";

/** How often the number of phones is looked at, and how soon a line that was down is tried again, milliseconds. */
const LOOK_EVERY = 2000;

/** @param {import("../board/desk.js").Desk} desk */
export function openQuick(desk) {
  if (document.querySelector("dialog.quick")) return;
  const board = desk.state.board?.id ?? String(document.body.dataset.board);
  const viewers = make("p", "viewers");
  viewers.setAttribute("role", "status");
  const title = make("h2", "", sayHuddle("share"));
  title.tabIndex = -1;
  title.autofocus = true;
  const picture = make("figure", "");
  const typed = make("div", "typed", make("p", "", sayGeneral("one_moment")));
  const dialog = make("dialog", "quick", make("header", "", title, viewers, button("shut", sayHuddle("close"), () => dialog.close())),
    make("div", "both", picture, typed));
  dialog.setAttribute("aria-label", sayHuddle("share"));
  document.body.append(dialog);
  dialog.showModal();
  stayAwake();

  let shownLink = "";
  /** @param {import("../share/links-api.js").NewLink} link */
  const showPicture = (link) => {
    if (shownLink === link.id) return;
    shownLink = link.id;
    picture.replaceChildren(qrPicture(link.qr, sayHuddle("picture")), make("figcaption", "", sayHuddle("point")));
    if (link.note) picture.append(make("p", "note", link.note));
  };
  // The one given away last is there at once; whether it still works is asked meanwhile.
  const last = keptLink(board);
  if (last) showPicture(last);

  let busy = false;
  let shownCode = "";
  const look = async () => {
    if (busy || !dialog.open) return;
    busy = true;
    try {
      const found = await access(board);
      let link = keptLink(board);
      if (!link || !found.links.some(({ id }) => id === link?.id)) {
        link = await newLink(board, "view", sayShare("players_link"));
        keepLink(board, link);
      }
      showPicture(link);
      noteCodes(board, found);
      const code = await joinCode(board, link.id);
      viewers.textContent = sayViewers(found.viewers);
      if (code.code !== shownCode) {
        shownCode = code.code;
        const half = code.code.length / 2;
        typed.replaceChildren(make("p", "", ...parted(sayHuddle("or_type", { address: "{address}" }), { address: make("strong", "where", bare(code.url)) })),
          bigCode([code.code.slice(0, half), code.code.slice(half)]));
      }
    } catch (error) {
      shownCode = "";
      viewers.textContent = "";
      const offline = desk.state.link !== "live" || !(error instanceof Error);
      const said = offline || error.message === sayGeneral("no_line") ? [sayHuddle("no_line"), sayHuddle("no_line_help")] : [error.message];
      if (shownLink && said.length > 1) said.push(sayHuddle("may_follow"));
      typed.replaceChildren(...said.map((sentence) => make("p", "trouble", sentence)));
    }
    busy = false;
  };
  const timer = setInterval(look, LOOK_EVERY);
  dialog.addEventListener("close", () => {
    clearInterval(timer);
    dialog.remove();
  });
  // A tap anywhere puts it away: nothing in it has to be tapped.
  dialog.addEventListener("click", () => dialog.close());
  void look();
}
