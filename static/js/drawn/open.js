/** The way to the drawn play, which is fetched when it is first wanted. */

import { goesOut } from "../steps/outside.js";
import { sayDrawn } from "../words/drawn-words.js";

/**
 * @param {import("./editor.js").EditorParts} board
 */
export function openDoor(board) {
  /** @type {ReturnType<typeof import("./by-hand.js").openBoard> | null} */
  let byHand = null;
  const open = () => {
    if (byHand) return byHand.open();
    void import("./by-hand.js").then(({ openBoard }) => {
      byHand ??= openBoard(board);
      byHand.open();
    }).catch(() => board.say(sayDrawn("not_now")));
  };
  document.addEventListener("keydown", (event) => {
    const target = event.target instanceof Element ? event.target : document.body;
    if (event.key.toLowerCase() !== "h" || event.ctrlKey || event.metaKey || event.altKey) return;
    if (target.closest("input, textarea, select, dialog") || document.querySelector("dialog[open]")) return;
    open();
  });
  return {
    open,
    /**
     * Whether the floor needs more room beside the lines than it has, or less: it is to be fitted anew then.
     * @param {import("../state/wire.js").StepWire[]} steps  what can be looked at
     */
    widens(steps) {
      const wide = Boolean(byHand?.isOpen) || goesOut(steps, board.desk.state.floor.box);
      const other = wide !== board.court.wide;
      board.court.wide = wide;
      return other;
    },
    /** Show it, if it is open: nothing else is drawn then. */
    draws() {
      if (!byHand?.isOpen) return false;
      byHand.paint();
      return true;
    },
  };
}
