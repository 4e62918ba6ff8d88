/** One tap, and the whole huddle can follow: a code to photograph and one to type, as large as the screen allows. */

import { button, make } from "../menu/elements.js";
import { access, joinCode, keepLink, keptLink, newLink, noteCodes } from "../share/links-api.js";
import { bare, bigCode, qrPicture } from "../share/link-elements.js";
import { WORDS } from "../share/words.js";
import { stayAwake } from "../device/wake.js";
import { H } from "./words.js";

/** How often the number of phones is looked at, and how soon a line that was down is tried again, milliseconds. */
const LOOK_EVERY = 2000;

/** @param {import("../board/desk.js").Desk} desk */
export function openQuick(desk) {
  if (document.querySelector("dialog.quick")) return;
  const board = desk.state.board?.id ?? String(document.body.dataset.board);
  const viewers = make("p", "viewers");
  viewers.setAttribute("role", "status");
  const title = make("h2", "", H.share);
  title.tabIndex = -1;
  title.autofocus = true;
  const picture = make("figure", "");
  const typed = make("div", "typed", make("p", "", H.oneMoment));
  const dialog = make("dialog", "quick", make("header", "", title, viewers, button("shut", H.close, () => dialog.close())),
    make("div", "both", picture, typed));
  dialog.setAttribute("aria-label", H.share);
  document.body.append(dialog);
  dialog.showModal();
  stayAwake();

  let shownLink = "";
  /** @param {import("../share/links-api.js").NewLink} link */
  const showPicture = (link) => {
    if (shownLink === link.id) return;
    shownLink = link.id;
    picture.replaceChildren(qrPicture(link.qr, H.picture), make("figcaption", "", H.point));
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
        link = await newLink(board, "view", WORDS.playersLink);
        keepLink(board, link);
      }
      showPicture(link);
      noteCodes(board, found);
      const code = await joinCode(board, link.id);
      viewers.textContent = WORDS.viewers(found.viewers);
      if (code.code !== shownCode) {
        shownCode = code.code;
        const half = code.code.length / 2;
        typed.replaceChildren(make("p", "", H.orType), make("p", "where", bare(code.url)),
          bigCode([code.code.slice(0, half), code.code.slice(half)]));
      }
    } catch (error) {
      shownCode = "";
      viewers.textContent = "";
      const offline = desk.state.link !== "live" || !(error instanceof Error);
      const said = offline || error.message === WORDS.noLine ? [H.noLine, H.noLineHelp] : [error.message];
      if (shownLink && said.length > 1) said.push(H.mayFollow);
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
