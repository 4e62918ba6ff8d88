/** All rule sets: the team's own, those that come along, and what differs between two of them. */

import { ask } from "./team-api.js";
import { anchor, button, line, make, select } from "../ui/dom.js";
import { forget, recall } from "./edit.js";
import { sentenceOf } from "./frame.js";
import { sayTeam, sayCopyOf } from "../words/team-words.js";
import { ownTriggers } from "./rule-data.js";
import { difference } from "./say.js";
import { sayLabel, sayGeneral } from "../words/general-words.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./frame.js").TeamView} TeamView
 * @typedef {import("./team-api.js").RulesRow} RulesRow
 * @typedef {import("./team-api.js").RulesAnswer} RulesAnswer
 */

/** @param {PageContext} context @returns {TeamView} */
export function openRulesList(context) {
  const { rules } = context.team;
  const own = rules.filter((row) => !row.shipped);
  const element = make("div", "column",
    make("h2", "", sayTeam("rules_title")),
    make("p", "lead-in", sayTeam("rules_lead")),
    make("h3", "", sayTeam("own_rules")),
    own.length ? rows(context, own) : make("p", "quiet", sayTeam("no_own_rules")),
    make("h3", "", sayTeam("shipped_rules")),
    rows(context, rules.filter((row) => row.shipped)),
    comparing(context),
  );
  return { element, title: sayTeam("tabs.rules"), key: "rules" };
}

/** @param {PageContext} context @param {RulesRow[]} sets */
function rows(context, sets) {
  return make("ul", "rows", ...sets.map((row) => {
    const open = anchor("open", make("strong", "", row.title), `#rules/${row.ref}`);
    open.append(make("span", "", row.about));
    if (recall(row.ref)) open.append(make("em", "tag warn", sayTeam("dirty_short")));
    const item = make("li", "row", open);
    const acts = make("div", "acts", button("plain", sayTeam("copy_and_change"), () => copyRules(context, row), sayLabel(sayTeam("copy_and_change"), row.title)));
    if (row.shipped) open.append(make("em", "tag", sayTeam("comes")));
    else {
      acts.append(
        button("plain", sayTeam("rename"), () => renaming(context, item, row), sayLabel(sayTeam("rename"), row.title)),
        button("plain", sayTeam("delete"), () => remove(context, row), sayLabel(sayTeam("delete"), row.title)),
      );
    }
    item.append(acts);
    return item;
  }));
}

/** @param {PageContext} context @param {{ref: string, title: string}} row */
export async function copyRules(context, row) {
  const title = sayCopyOf(row.title, context.team.rules.map((each) => each.title));
  try {
    const { ref } = await ask("POST", "rules", { from: row.ref, title });
    await context.refresh();
    context.go(`#rules/${ref}`);
  } catch (error) {
    context.complain(error);
  }
}

/** @param {PageContext} context @param {RulesRow} row */
async function remove(context, row) {
  try {
    await ask("DELETE", `rules/${row.ref}`);
    const kept = recall(row.ref);
    forget(row.ref);
    await context.refresh();
    context.redraw();
    context.toast(sayGeneral("deleted", { name: row.title }), async () => {
      try {
        await ask("POST", `rules/${row.ref}/restore`, {});
        if (kept) localStorage.setItem(`quintet.draft.${row.ref}`, JSON.stringify(kept));
        await context.refresh();
        context.redraw();
        context.toast(sayTeam("restored", { name: row.title }));
      } catch (error) {
        context.complain(error);
      }
    });
  } catch (error) {
    context.complain(error);
  }
}

/** @param {PageContext} context @param {HTMLElement} item @param {RulesRow} row */
function renaming(context, item, row) {
  const before = [...item.childNodes];
  const back = () => item.replaceChildren(...before);
  const title = line(sayTeam("title"), row.title, { most: 60 });
  const about = line(sayTeam("about"), row.about, { most: 400 });
  const said = make("p", "wrong");
  said.setAttribute("role", "alert");
  const form = make("form", "renaming", title.whole, about.whole, said);
  const save = make("button", "primary", sayTeam("save"));
  form.append(make("div", "acts", save, button("plain", sayTeam("cancel"), back)));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      /** @type {RulesAnswer} */
      const { version, data } = await ask("GET", `rules/${row.ref}`);
      data.title = title.input.value.trim() || row.title;
      data.about = about.input.value.trim();
      await ask("PUT", `rules/${row.ref}`, { version, data });
      await context.refresh();
      context.redraw();
    } catch (error) {
      said.textContent = sentenceOf(error);
    }
  });
  item.replaceChildren(form);
  title.input.focus();
  title.input.select();
}

/** @param {PageContext} context */
function comparing(context) {
  const { rules } = context.team;
  let [one, other] = [rules[rules.length > 4 ? 4 : 0]?.ref ?? "", rules[rules.length > 4 ? 0 : 1]?.ref ?? ""];
  const options = rules.map((row) => /** @type {[string, string]} */ ([row.ref, row.title]));
  const result = make("div", "differences");
  result.setAttribute("aria-live", "polite");
  const run = async () => {
    if (one === other) {
      result.replaceChildren(make("p", "quiet", sayTeam("compare_same")));
      return;
    }
    try {
      /** @type {import("./team-api.js").Comparison} */
      const said = await ask("POST", "rules/compare", { one, other });
      const { one_title: a, other_title: b, differences } = said;
      // What only one of them has installed is said once, not again for everybody on it.
      const lone = new Set(differences.map(([, about]) => about.action).filter(Boolean));
      const single = ownTriggers(lone, context.team.vocabulary);
      const items = differences.filter(([, about]) => !single.has(about.trigger)).map(([key, about]) => make("li", "", difference(context.words, key, about, a, b)));
      result.replaceChildren(
        make("p", "count", items.length ? sayTeam("compare_some", { n: items.length }) : sayTeam("compare_none", { a, b })),
        make("ul", "plainlist", ...items),
      );
    } catch (error) {
      result.replaceChildren(make("p", "wrong", sentenceOf(error)));
    }
  };
  const asked = make("div", "picks",
    select(sayTeam("compare_one"), options, one, (value) => (one = value)),
    select(sayTeam("compare_other"), options, other, (value) => (other = value)),
    button("plain", sayTeam("compare"), run),
  );
  return make("section", "comparing", make("h3", "", sayTeam("compare_title")), asked, result);
}
