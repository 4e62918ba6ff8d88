/** What a coach wants in a huddle: the clock, the big view, the code to join by. Each is fetched when it is first wanted. */

import { sayBoard } from "../words/board-words.js";
import { element } from "../board/status.js";
import { toast } from "../ui/toast.js";

/**
 * @param {object} board
 * @param {import("../board/desk.js").Desk} board.desk
 * @param {import("../board/transport.js").Transport} board.transport
 */
export function openHuddle({ desk, transport }) {
  const sorry = (/** @type {string} */ sentence) => () => toast(element("toast"), sentence);
  if (clockWasShown()) void import("./clock.js").then((clock) => clock.showAgain()).catch(() => {});
  return {
    clock: () => void import("./clock.js").then((clock) => clock.openClock()).catch(sorry(sayBoard("no_clock"))),
    present: () => void import("./present.js").then((view) => view.present(transport)).catch(sorry(sayBoard("no_big"))),
    leave: () => void import("./present.js").then((view) => view.leave()),
    quick: () => void import("./quick-share.js").then((share) => share.openQuick(desk)).catch(sorry(sayBoard("no_share"))),
    loop: () => transport.setLoop(!transport.loop),
  };
}

function clockWasShown() {
  try {
    return JSON.parse(localStorage.getItem("quintet.clock") ?? "{}").shown === true;
  } catch {
    return false;
  }
}
