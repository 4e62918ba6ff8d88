/** All formations: the team's own and those that come along. */

import { ask } from "./team-api.js";
import { anchor, button, make } from "../ui/dom.js";
import { forget, recall } from "./edit.js";
import { sayTeam, sayCopyOf } from "../words/team-words.js";
import { sayLabel, sayGeneral } from "../words/general-words.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./frame.js").TeamView} TeamView
 * @typedef {import("./team-api.js").FormationRow} FormationRow
 */

/** @param {PageContext} context @returns {TeamView} */
export function openFormationsList(context) {
  const { formations } = context.team;
  const own = formations.filter((row) => !row.shipped);
  const element = make("div", "column",
    make("h2", "", sayTeam("formations_title")),
    make("p", "lead-in", sayTeam("formations_lead")),
    make("h3", "", sayTeam("own_formations")),
    own.length ? rows(context, own) : make("p", "quiet", sayTeam("no_own_formations")),
    make("h3", "", sayTeam("shipped_formations")),
    rows(context, formations.filter((row) => row.shipped)),
  );
  return { element, title: sayTeam("tabs.formations"), key: "formations" };
}

/** @param {PageContext} context @param {FormationRow[]} formations */
function rows(context, formations) {
  return make("ul", "rows", ...formations.map((row) => {
    const name = nameOf(context, row.name);
    const open = anchor("open", make("strong", "", name), `#formations/${row.ref}`);
    if (row.shipped) open.append(make("em", "tag", sayTeam("comes")));
    if (recall(row.ref)) open.append(make("em", "tag warn", sayTeam("dirty_short")));
    const acts = make("div", "acts", button("plain", sayTeam("copy_and_change"), () => copyFormation(context, row), sayLabel(sayTeam("copy_and_change"), name)));
    if (!row.shipped) acts.append(button("plain", sayTeam("delete"), () => remove(context, row), sayLabel(sayTeam("delete"), name)));
    return make("li", "row", open, acts);
  }));
}

/** What a formation is called: those that come along have words in the language's tables. @param {PageContext} context @param {string} name */
export function nameOf(context, name) {
  const said = context.words.table.formations[name];
  return said ? said.charAt(0).toUpperCase() + said.slice(1) : name;
}

/** @param {PageContext} context @param {FormationRow} row */
export async function copyFormation(context, row) {
  const name = sayCopyOf(nameOf(context, row.name), context.team.formations.map((each) => each.name));
  try {
    const { ref } = await ask("POST", "formations", { from: row.ref, name });
    await context.refresh();
    context.go(`#formations/${ref}`);
  } catch (error) {
    context.complain(error);
  }
}

/** @param {PageContext} context @param {FormationRow} row */
async function remove(context, row) {
  try {
    await ask("DELETE", `formations/${row.ref}`);
    forget(row.ref);
    await context.refresh();
    context.redraw();
    context.toast(sayGeneral("deleted", { name: row.name }), async () => {
      try {
        await ask("POST", `formations/${row.ref}/restore`, {});
        await context.refresh();
        context.redraw();
        context.toast(sayTeam("restored", { name: row.name }));
      } catch (error) {
        context.complain(error);
      }
    });
  } catch (error) {
    context.complain(error);
  }
}
