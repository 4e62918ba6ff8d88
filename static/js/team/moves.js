/** Who does what: a card for each thing that happens, a line for each role, in sentences that can be tapped. */

import { button, choice, make } from "../ui/dom.js";
import { sayTeam } from "../words/team-words.js";
import { installedTriggers, respond } from "./rule-data.js";
import { movement, order, response, role as roleWord, tried, trigger as triggerWord } from "./say.js";
import { capital } from "../words/sayer.js";

/**
 * @typedef {import("./rules-page.js").RulesPage} RulesPage
 */

/** @param {RulesPage} page @returns {HTMLElement[]} */
export function movesPart(page) {
  const { words, team } = page.context;
  const installed = installedTriggers(page.data, team.vocabulary);
  const shown = order(words, "triggers").filter((each) => installed.has(each));
  return [make("p", "hint", sayTeam("exact_wins")), ...shown.map((each) => card(page, each))];
}

/** @param {RulesPage} page @param {string} trigger */
function card(page, trigger) {
  const { words, team } = page.context;
  const table = page.data.responses[trigger] ?? {};
  const roles = team.vocabulary.triggers[trigger] ?? [];
  const heading = button("play", make("span", "", capital(triggerWord(words, trigger))), () => {
    void page.watch.show({ trigger });
    page.playing = trigger;
    page.draw();
  });
  heading.dataset.focus = `play.${trigger}`;
  const made = make("section", page.playing === trigger ? "card on" : "card", make("h3", "", heading));
  made.id = `on-${trigger}`;
  const there = roles.filter((role) => role in table);
  for (const role of there) made.append(row(page, trigger, role));
  if (!there.length) made.append(make("p", "quiet", team.vocabulary.optional.includes(trigger) ? sayTeam("everybody_stays") : sayTeam("nobody_yet")));
  const missing = roles.filter((role) => !(role in table));
  if (!page.readOnly && missing.length) made.append(adding(page, trigger, missing));
  return made;
}

/** @param {RulesPage} page @param {string} trigger @param {string} role */
function row(page, trigger, role) {
  const { words } = page.context;
  const movements = tried(page.data.responses[trigger]?.[role]);
  const key = `${trigger}.${role}`;
  const open = page.opened === key;
  const line = button("rule", make("span", "role", roleWord(words, role)), () => {
    page.opened = open ? "" : key;
    page.playing = trigger;
    void page.watch.show({ trigger, role });
    page.draw();
  });
  line.append(" ", make("span", "move", response(words, role, movements)));
  line.dataset.focus = `rule.${key}`;
  line.id = `rule-${key}`;
  const made = make("div", open ? "ruling open" : "ruling", line);
  const problem = page.problemAt(`responses.${key}`);
  if (problem) {
    const said = make("p", "wrong", problem);
    said.id = `wrong-${key}`;
    line.setAttribute("aria-describedby", said.id);
    made.append(said);
  }
  if (page.readOnly) return made;
  line.setAttribute("aria-expanded", String(open));
  if (open) made.append(choosing(page, trigger, role, movements));
  return made;
}

/** @param {RulesPage} page @param {string} trigger @param {string} role @param {string[]} movements */
function choosing(page, trigger, role, movements) {
  const { words, team } = page.context;
  const key = `${trigger}.${role}`;
  const may = order(words, "movements").filter((name) => team.vocabulary.movements[name]?.includes(role));
  const answers = may.map((name) => /** @type {[string, string, string]} */ ([name, movement(words, name), words.table.movement_meanings[name] ?? ""]));
  const take = (/** @type {string[]} */ next) => {
    page.watch.shown = { trigger, role };
    page.draft?.edit((data) => respond(data, trigger, role, next));
  };
  const rest = movements.slice(2);
  const first = choice(sayTeam("choose", { role: roleWord(words, role), trigger: capital(triggerWord(words, trigger)) }), answers, movements[0] ?? "",
    (name) => take([name, ...movements.slice(1).filter((each) => each !== name)]), "choice moves");
  mark(first, `first.${key}`);
  const others = answers.filter(([name]) => name !== movements[0]);
  const second = choice(sayTeam("if_no_room"), [/** @type {[string, string, string]} */ (["", sayTeam("no_second"), sayTeam("no_second_meaning")]), ...others], movements[1] ?? "",
    (name) => take([movements[0], ...(name ? [name, ...rest.filter((each) => each !== name)] : [])]), "choice moves");
  mark(second, `second.${key}`);
  const fold = make("details", "second", make("summary", "", movements[1] ? sayTeam("if_no_room_what", { movement: movement(words, movements[1]) }) : sayTeam("if_no_room_more")), second);
  fold.open = page.seconds === key;
  fold.addEventListener("toggle", () => (page.seconds = fold.open ? key : page.seconds === key ? "" : page.seconds));
  /** @type {HTMLElement} */ (fold.firstElementChild).dataset.focus = `fold.${key}`;
  const out = button("plain small", sayTeam("take_out"), () => {
    page.opened = "";
    page.watch.shown = { trigger };
    page.draft?.edit((data) => respond(data, trigger, role, []));
  });
  return make("div", "choosing", first, fold, make("p", "out", out, make("small", "", sayTeam("take_out_hint"))));
}

/** @param {HTMLElement} field @param {string} key */
function mark(field, key) {
  for (const input of field.querySelectorAll("input")) input.dataset.focus = `${key}.${input.value}`;
}

/** @param {RulesPage} page @param {string} trigger @param {string[]} missing */
function adding(page, trigger, missing) {
  const { words, team } = page.context;
  const fold = make("details", "adding", make("summary", "", sayTeam("add_role")));
  const list = make("div", "ticks");
  for (const role of missing) {
    list.append(button("chip", roleWord(words, role), () => {
      const may = order(words, "movements").filter((name) => team.vocabulary.movements[name]?.includes(role));
      page.opened = `${trigger}.${role}`;
      page.playing = trigger;
      page.watch.shown = { trigger, role };
      page.draft?.edit((data) => respond(data, trigger, role, may.slice(0, 1)));
      document.getElementById(`rule-${trigger}.${role}`)?.focus();
    }));
  }
  fold.append(list);
  return fold;
}
