/** All formations: the team's own and those that come along. */

import { ask } from "./team-api.js";
import { anchor, button, make } from "../ui/dom.js";
import { forget, recall } from "./edit.js";
import { T } from "./phrases.js";

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
    make("h2", "", T.formationsTitle),
    make("p", "lead-in", T.formationsLead),
    make("h3", "", T.ownFormations),
    own.length ? rows(context, own) : make("p", "quiet", T.noOwnFormations),
    make("h3", "", T.shippedFormations),
    rows(context, formations.filter((row) => row.shipped)),
  );
  return { element, title: T.tabs.formations, key: "formations" };
}

/** @param {PageContext} context @param {FormationRow[]} formations */
function rows(context, formations) {
  return make("ul", "rows", ...formations.map((row) => {
    const name = nameOf(context, row.name);
    const open = anchor("open", make("strong", "", name), `#formations/${row.ref}`);
    if (row.shipped) open.append(make("em", "tag", T.comes));
    if (recall(row.ref)) open.append(make("em", "tag warn", T.dirtyShort));
    const acts = make("div", "acts", button("plain", T.copyAndChange, () => copyFormation(context, row), `${T.copyAndChange}: ${name}`));
    if (!row.shipped) acts.append(button("plain", T.delete, () => remove(context, row), `${T.delete}: ${name}`));
    return make("li", "row", open, acts);
  }));
}

/** What a formation is called: those that come along have words in the locale table. @param {PageContext} context @param {string} name */
export function nameOf(context, name) {
  const said = context.words.table.formations[name];
  return said ? said.charAt(0).toUpperCase() + said.slice(1) : name;
}

/** @param {PageContext} context @param {FormationRow} row */
export async function copyFormation(context, row) {
  const name = T.copyOf(nameOf(context, row.name), context.team.formations.map((each) => each.name));
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
    context.toast(T.deleted(row.name), async () => {
      try {
        await ask("POST", `formations/${row.ref}/restore`, {});
        await context.refresh();
        context.redraw();
        context.toast(T.restored(row.name));
      } catch (error) {
        context.complain(error);
      }
    });
  } catch (error) {
    context.complain(error);
  }
}
