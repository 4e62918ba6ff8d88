/** Coming from the team's page with rules to play: at once on an empty board, else after asking. */

import { button, fetched, make } from "../menu/elements.js";
import { sayBoard } from "../words/board-words.js";
import { titleOfRules } from "../words/rule-set-words.js";

/**
 * @param {import("./desk.js").Desk} desk  whose board is known
 * @param {HTMLDialogElement} dialog
 */
export async function arrive(desk, dialog) {
  const address = new URL(location.href);
  const rules = address.searchParams.get("rules");
  if (rules === null) return;
  address.searchParams.delete("rules");
  history.replaceState(history.state, "", address); // loading the page again asks nothing again
  if (!/^[\w@-]{1,60}$/.test(rules)) return;
  const { board, steps } = desk.state;
  if (rules === board.rules) return;
  const start = () => desk.setup({ rules });
  if (!steps.length) return start();
  const title = await titleOf(board.id, rules);
  const way = (/** @type {string} */ kind, /** @type {string} */ word, act = () => {}) =>
    button(kind, word, () => (dialog.close(), act()));
  dialog.replaceChildren(
    make("h2", "asked", sayBoard("new_rules", { title })),
    make("p", "hint", sayBoard("new_rules_hint")),
    make("p", "ways", way("primary", sayBoard("start_new"), start), way("plain", sayBoard("not_now"))),
  );
  dialog.setAttribute("aria-label", sayBoard("new_rules", { title }));
  if (!dialog.open) dialog.showModal();
}

/** @param {string} board @param {string} ref */
async function titleOf(board, ref) {
  try {
    /** @type {{rules: {ref: string, title: string}[]}} */
    const team = await fetched(`team?board=${board}`);
    return team.rules.find((row) => row.ref === ref.split("@")[0])?.title ?? ref;
  } catch {
    return ref.startsWith("r_") ? sayBoard("the_others") : titleOfRules(ref, ref.replaceAll("_", " "));
  }
}
