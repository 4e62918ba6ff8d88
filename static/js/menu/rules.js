/** The part of the menu about what the team plays: formation, rules, how far they have been taught. */

import { choose, fetched, make } from "./elements.js";
import { sayBoard } from "../words/board-words.js";
import { titleOfRules, titleOfStage } from "../words/rule-set-words.js";

/**
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../words/speaker.js").Words} Words
 * @typedef {import("../board/desk.js").Setup} Setup
 *
 * @typedef {object} Listed  a rule set or a formation
 * @property {string} ref  of the newest version
 * @property {string} [title]
 * @property {string} [name]
 * @property {boolean} shipped
 * @property {number} version
 * @typedef {{rules: Listed[], formations: Listed[]}} Listing
 */

/**
 * @param {State} state
 * @param {Words} words
 * @param {(setup: Setup) => void} setup
 */
export function rulesPart(state, words, setup) {
  const element = make("div", "part");
  /** @type {Listing | null} */
  let team = null;
  let said = "";
  let drawn = "";

  /** @param {State} now */
  const update = (now) => {
    const { board } = now;
    const key = JSON.stringify([board, team, said]);
    if (key === drawn) return;
    drawn = key;
    const focused = document.activeElement instanceof HTMLInputElement && element.contains(document.activeElement)
      ? document.activeElement : null;
    element.replaceChildren(...parts(now, team, words, setup), ...(said ? [make("p", "hint", said)] : []), teamLink(board.id));
    if (focused) {
      const inputs = [...element.querySelectorAll("input")];
      const same = inputs.find((input) => input.name === focused.name && input.value === focused.value);
      (same ?? inputs.find((input) => input.name === focused.name && input.checked))?.focus();
    }
  };

  let latest = state;
  update(state);
  fetched(`team?board=${state.board.id}`).then(
    (/** @type {Listing} */ found) => (team = found),
    () => (said = sayBoard("no_team")),
  ).then(() => update(latest));
  return { element, update: (/** @type {State} */ now) => update((latest = now)) };
}

/** @param {State} state @param {Listing | null} team @param {Words} words @param {(setup: Setup) => void} setup */
function parts({ board, choices }, team, words, setup) {
  const formations = rowsOf(team?.formations ?? choices.formations.map(shipped), board.formation, board.formation_name);
  const rules = rowsOf(team?.rules ?? [], board.rules, titleOfRules(board.rules, board.rules_title));
  const named = (/** @type {string} */ ref) => {
    const row = formations.find((each) => each.ref === ref);
    return row && !row.shipped ? String(row.name) : words.formation(ref);
  };
  return [
    choose(sayBoard("formation"), formations.map((row) => row.ref), board.formation, named,
      (formation) => setup({ formation }), sayBoard("formation_hint")),
    choose(sayBoard("rules"), rules.map((row) => row.ref), board.rules,
      (ref) => rules.find((row) => row.ref === ref)?.title ?? ref, (chosen) => setup({ rules: chosen }), sayBoard("rules_hint")),
    ...(board.stages.length > 1 ? [stages(board, setup)] : []),
  ];
}

/** @param {string} ref @returns {Listed} */
const shipped = (ref) => ({ ref, name: ref, shipped: true, version: 1 });

/**
 * The rows to choose from. The board keeps the version it was begun with: that is one of them, under its own ref,
 * and a newer one stands beside it.
 * @param {Listed[]} rows
 * @param {string} now
 * @param {string} title
 * @returns {Listed[]}
 */
function rowsOf(rows, now, title) {
  const [base, version] = now.split("@");
  const found = rows.flatMap((row) => {
    if (row.ref !== base) return [row];
    const own = { ...row, ref: now };
    if (row.shipped || String(row.version) === version) return [own];
    const newer = sayBoard("newer", { title: row.title ?? row.name ?? "" });
    return [{ ...own, title, name: title }, { ...row, title: newer, name: newer }];
  });
  const known = found.some((row) => row.ref === now);
  return known ? found : [...found, { ref: now, title, name: title, shipped: !version, version: Number(version ?? 1) }];
}

/** @param {State["board"]} board @param {(setup: Setup) => void} setup */
function stages(board, setup) {
  const values = ["", ...board.stages.map((_, i) => String(i))];
  const now = board.stage === null ? "" : String(board.stage);
  return choose(sayBoard("stage"), values, now,
    (value) => (value === "" ? sayBoard("everything") : sayBoard("stage_numbered", { number: Number(value) + 1, title: titleOfStage(board.rules, Number(value), board.stages[Number(value)]) })),
    (value) => setup({ stage: value === "" ? null : Number(value) }), sayBoard("stage_hint"));
}

/** @param {string} board */
function teamLink(board) {
  const link = make("a", "plain", sayBoard("team"));
  link.href = `/team?board=${board}`;
  const print = make("a", "plain", sayBoard("print"));
  print.href = `/board/${board}/print`;
  return make("p", "ask links", link, print);
}
