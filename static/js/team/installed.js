/** What is installed: the actions with the ball, the choices of a cutter, and how many may post up. */

import { ask } from "./team-api.js";
import { choice, make } from "../ui/dom.js";
import { cutterPart } from "./cutter-places.js";
import { sayTeam, sayPostsNumber } from "../words/team-words.js";
import { install, triggersOf } from "./rule-data.js";
import { action, order } from "./say.js";

/**
 * @typedef {import("./rules-page.js").RulesPage} RulesPage
 * @typedef {import("./team-api.js").RulesAnswer} RulesAnswer
 */

/** Most post spots that may be allowed at once. */
const POSTS = [0, 1, 2, 3];

/** @param {RulesPage} page @returns {HTMLElement[]} */
export function installedPart(page) {
  const { words, team } = page.context;
  const known = order(words, "actions");
  const sorted = (/** @type {string[]} */ kinds) => [...kinds].sort((a, b) => known.indexOf(a) - known.indexOf(b));
  const group = (/** @type {string} */ heading, /** @type {string[]} */ kinds, /** @type {string} */ place) => {
    const made = make("section", "group", make("h3", "", heading));
    const problem = page.problemAt(place);
    if (problem) made.append(make("p", "wrong", problem));
    made.append(...sorted(kinds).map((kind) => toggle(page, kind)));
    return made;
  };
  /** @type {[string, string][]} */
  const counts = [["", sayTeam("posts_none")], ...POSTS.map((n) => /** @type {[string, string]} */ ([String(n), sayPostsNumber(n)]))];
  const posts = choice(sayTeam("posts"), counts, page.data.posts === null ? "" : String(page.data.posts), (value) => {
    page.draft?.edit((data) => (data.posts = value === "" ? null : Number(value)));
  });
  for (const input of posts.querySelectorAll("input")) {
    input.dataset.focus = `posts.${input.value}`;
    input.disabled = page.readOnly;
  }
  const wrong = page.problemAt("posts");
  if (wrong) posts.append(make("p", "wrong", wrong));
  return [
    group(sayTeam("ball_actions"), team.vocabulary.actions, "actions"),
    group(sayTeam("lane_choices"), team.vocabulary.lane, "lane"),
    cutterPart(page),
    posts,
  ];
}

/** @param {RulesPage} page @param {string} kind */
function toggle(page, kind) {
  const { words, team } = page.context;
  const fixed = team.vocabulary.always.includes(kind);
  const input = make("input");
  input.type = "checkbox";
  input.setAttribute("role", "switch");
  input.checked = fixed || page.data.actions.includes(kind) || page.data.lane.includes(kind);
  input.disabled = fixed || page.readOnly;
  input.dataset.focus = `install.${kind}`;
  input.addEventListener("change", () => void change(page, kind, input.checked));
  const text = make("span", "", make("b", "", action(words, kind)), make("small", "", words.table.action_meanings[kind] ?? ""));
  if (fixed) text.append(make("em", "tag", sayTeam("always")));
  return make("label", "toggle", input, text);
}

/**
 * Something newly installed comes with what everybody does on it, from the first set that ships and has it.
 * @param {RulesPage} page
 * @param {string} kind
 * @param {boolean} on
 */
async function change(page, kind, on) {
  const { context } = page;
  const { vocabulary, rules } = context.team;
  const [trigger] = triggersOf(kind, vocabulary);
  const lacking = on ? triggersOf(kind, vocabulary).filter((each) => !(each in page.data.responses)) : [];
  const model = rules.find((row) => row.shipped);
  /** @type {RulesAnswer | null} */
  let from = null;
  if (lacking.length && model) {
    try {
      from = await ask("GET", `rules/${model.ref}`);
    } catch {
      // Without it the line stands empty, and the check says so.
    }
  }
  if (on && trigger) {
    page.playing = trigger;
    page.watch.shown = { trigger };
  }
  page.draft?.edit((data) => {
    install(data, kind, on, vocabulary);
    for (const each of lacking) {
      const responses = from?.data.responses[each];
      if (responses) data.responses[each] = structuredClone(responses);
    }
  });
  if (from) context.toast(sayTeam("took_responses", { action: action(context.words, kind), from: from.data.title }));
}
