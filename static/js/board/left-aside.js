/** Telling a coach of what is not on the board any more, with the way back to it. */

import { sayBoard } from "../words/board-words.js";
import { toast } from "../ui/toast.js";
import { element } from "./status.js";

/**
 * @typedef {import("./desk.js").Desk} Desk
 * @typedef {import("../state/state.js").State} State
 */

/** What was played here while somebody else drove. @param {Desk} desk @param {import("../state/state.js").Context} line @param {boolean} whole */
export function tellAside(desk, { chain, formation, rules, line }, whole) {
  if (!line.length) return;
  const show = () => desk.open({ id: chain, formation, rules, line, depth: line.length });
  toast(element("toast"), whole ? sayBoard("set_aside") : sayBoard("set_aside_part"), { word: sayBoard("show_it"), act: show });
}

/** The change after which the way back was offered that is on the screen now. @type {string | null} */
let offered = null;

/** The chain that a new one was just put in the place of. @param {Desk} desk @param {State} now @param {State} before */
export function tellLeft(desk, now, before) {
  const [left, chain] = [now.earlier[0], before.chain];
  if (chain && left?.chain === chain.id && before.earlier[0]?.chain !== left.chain && now.arrived && !now.steps.length && now.pending.length) {
    // What was there is not gone: where it is, and the way back.
    toast(element("toast"), sayBoard("is_earlier"), { word: sayBoard("undo"), act: () => desk.undo() });
    offered = now.change;
  } else if (offered !== null && now.change !== offered) {
    // Something else has been done: its undo would take that back.
    const [toasted] = element("toast").childNodes;
    if (toasted?.textContent === sayBoard("is_earlier")) toast(element("toast"), "");
    offered = null;
  }
}
