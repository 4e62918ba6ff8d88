/**
 * What is in a file, as the page shows it before anything changes, and what the coach decides about it.
 *
 * @typedef {"team" | "players" | "lineups" | "designs" | "boards" | "chains"} Kind
 * @typedef {"mine" | "theirs" | "both"} Whose
 * @typedef {object} Beside  what there is of one kind beside what is here
 * @property {number} new
 * @property {number} same
 * @property {{theirs: string, mine: string}[]} different
 * @property {string[]} twins  names there will be two of
 * @typedef {object} InFile
 * @property {{name: string, made: number}} team
 * @property {Record<string, number>} counts
 * @property {{board: string, name: string, head: boolean} | null} here  the very team, if this device coaches it
 * @property {string | null} into  the team it would come into
 * @property {Record<Kind, Beside> | null} items
 * @property {string} seen  to be sent back: what was looked at
 */

import { make } from "../ui/dom.js";
import { sayTransfer, sayPair, sayTwins, sayCounted } from "../words/transfer-words.js";
import { parted } from "../words/sayer.js";
import { sayLabel } from "../words/general-words.js";

/** Of what differs, so many are named. */
const NAMED_MOST = 8;
const KINDS = /** @type {const} */ (["team", "players", "lineups", "designs", "boards", "chains"]);
const COUNTED = ["players", "lineups", "rules", "formations", "boards", "chains", "drawn", "played"];
const WHOSE = /** @type {const} */ (["mine", "theirs", "both"]);

/**
 * @param {InFile} found
 * @param {string} board  of the team it would come into; "" for a new one
 * @param {(choices: Record<string, Whose>) => void} bring
 * @returns {HTMLElement[]}
 */
export function showFound(found, board, bring) {
  /** @type {Record<string, Whose>} */
  const choices = {};
  const counts = COUNTED.filter((what) => found.counts[what] > 0);
  const head = make("h3", "", sayTransfer("team", { name: found.team.name }));
  head.tabIndex = -1;
  /** @type {HTMLElement[]} */
  const shown = [head, make("ul", "counts", ...counts.map((what) => make("li", "", sayCounted(what, found.counts[what]))))];
  const go = make("button", "act", sayTransfer("bring"));
  go.type = "button";
  go.addEventListener("click", () => {
    go.disabled = true;
    go.textContent = sayTransfer("bringing");
    bring(choices);
  });
  const { items } = found;
  if (!items || found.into === null) {
    if (found.here) shown.push(make("p", "complaint", found.here.head ? sayTransfer("here", { name: found.here.name }) : sayTransfer("here_assistant", { name: found.here.name })));
    return [...shown, make("p", "note", sayTransfer("new_team")), go];
  }
  const parts = KINDS.filter((kind) => items[kind].new || items[kind].different.length);
  if (!parts.length) return [...shown, make("p", "part", sayTransfer("nothing"))];
  const idle = make("p", "note", sayTransfer("idle"));
  /** With nothing new and everything kept as it is here, there is nothing to do. */
  const weigh = () => {
    const some = parts.some((kind) => items[kind].new || (choices[kind] ?? "mine") !== "mine");
    go.disabled = !some;
    idle.hidden = some;
  };
  weigh();
  const save = make("a", "act second", sayTransfer("save_first"));
  save.href = `/api/team/everything?board=${encodeURIComponent(board)}`;
  save.download = "";
  const whole = make("div", "parts", make("h3", "", sayTransfer("into", { name: found.into })), ...parts.map((kind) => partOf(kind, items[kind], choices)));
  whole.addEventListener("change", weigh);
  return [...shown, whole, make("p", "note", sayTransfer("why")), save, idle, go];
}

/** @param {Kind} kind @param {Beside} part @param {Record<string, Whose>} choices */
function partOf(kind, part, choices) {
  const made = make("section", "part", make("h4", "", sayTransfer(`kinds.${kind}`)));
  if (part.new) made.append(make("p", "", sayTransfer("comes", { n: part.new })));
  if (part.same) made.append(make("p", "", sayTransfer("same", { n: part.same })));
  if (part.twins.length) made.append(make("p", "", sayTwins(part.twins.slice(0, NAMED_MOST))));
  const differ = part.different;
  if (!differ.length) return made;
  if (kind === "team") made.append(make("p", "", sayTransfer("team_differs")));
  else {
    const named = differ.slice(0, NAMED_MOST).map(({ theirs, mine }) => {
      const name = document.createTextNode(theirs || sayTransfer("unnamed"));
      const parts = parted(sayPair(name.data, mine || sayTransfer("unnamed")), { theirs: name });
      return make("li", "", ...parts.map((part) => (part === name ? part : make("span", "", part))));
    });
    if (differ.length > NAMED_MOST) named.push(make("li", "", make("span", "", sayTransfer("more", { n: differ.length - NAMED_MOST }))));
    made.append(make("p", "", sayTransfer("differ", { n: differ.length })), make("ul", "pairs", ...named));
  }
  made.append(whoseCounts(kind, choices));
  return made;
}

/** @param {Kind} kind @param {Record<string, Whose>} choices */
function whoseCounts(kind, choices) {
  const field = make("fieldset", "whose", make("legend", "", sayTransfer("whose")));
  field.setAttribute("aria-label", sayLabel(sayTransfer(`kinds.${kind}`), sayTransfer("whose")));
  for (const whose of WHOSE) {
    const input = make("input");
    input.type = "radio";
    input.name = `whose-${kind}`;
    input.value = whose;
    input.checked = whose === "mine";
    input.addEventListener("change", () => (choices[kind] = whose));
    const words = make("span", "", sayTransfer(`answers.${whose}`));
    if (sayTransfer(`means.${kind}.${whose}`)) words.append(make("small", "", sayTransfer(`means.${kind}.${whose}`)));
    field.append(make("label", "", input, words));
  }
  return field;
}
