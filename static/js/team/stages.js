/** Teaching stages: in which order a team learns its rules. Moved by buttons, by drag, taught by tapping words. */

import { button, icon, make, tick } from "../ui/dom.js";
import { sayTeam } from "../words/team-words.js";
import { moveStage, teach, untaught } from "./rule-data.js";
import { action, list, order } from "./say.js";

/**
 * @typedef {import("./rules-page.js").RulesPage} RulesPage
 * @typedef {import("./team-api.js").TeachingStage} TeachingStage
 */

/** @param {RulesPage} page @returns {HTMLElement[]} */
export function stagesPart(page) {
  const { words, team } = page.context;
  const stages = page.data.stages ?? [];
  const rows = make("ol", "stages", ...stages.map((stage, index) => row(page, stage, index, stages.length)));
  const rest = untaught(page.data, team.vocabulary);
  /** @type {HTMLElement[]} */
  const made = [make("p", "hint", sayTeam("stages_lead"))];
  if (stages.length) made.push(rows);
  else made.push(make("p", "quiet", sayTeam("stage_none")));
  if (stages.length && rest.length) made.push(make("p", "note", sayTeam("stage_rest", { list: list(words, rest) })));
  if (!page.readOnly) {
    const add = button("plain", sayTeam("stage_add"), () => {
      const at = stages.length;
      page.opened = `stage.${at}`;
      page.draft?.edit((data) => (data.stages = [...(data.stages ?? []), { title: sayTeam("stage_new"), adds: [] }]));
      const name = document.querySelector(`[data-focus="stage.${at}.name"]`);
      if (name instanceof HTMLInputElement) name.select();
    });
    made.push(add);
    dragging(page, rows);
  }
  return made;
}

/** @param {RulesPage} page @param {TeachingStage} stage @param {number} index @param {number} count */
function row(page, stage, index, count) {
  const { words } = page.context;
  const key = `stage.${index}`;
  const open = page.opened === key;
  const adds = stage.adds.length ? sayTeam("stage_adds", { list: list(words, stage.adds) }) : sayTeam("stage_nothing");
  const item = make("li", "stage", make("span", "nth", String(index + 1)));
  item.dataset.index = String(index);
  const problem = page.problemAt(`stages.${index}`);
  if (page.readOnly) {
    item.append(make("div", "what", make("b", "", stage.title), make("p", "", adds)));
    return item;
  }
  const name = make("input");
  name.value = stage.title;
  name.maxLength = 60;
  name.autocomplete = "off";
  name.setAttribute("aria-label", sayTeam("stage_name", { n: index + 1 }));
  name.dataset.focus = `${key}.name`;
  name.addEventListener("change", () => page.draft?.edit((data) => ((data.stages ?? [])[index].title = name.value.trim() || stage.title)));
  const go = (/** @type {number} */ to) => {
    page.opened = "";
    page.draft?.edit((data) => moveStage(data, index, to));
    const moved = document.querySelector(`[data-focus="stage.${to}.${to < index ? "up" : "down"}"]`);
    if (moved instanceof HTMLButtonElement && !moved.disabled) moved.focus();
  };
  const up = button("round", icon("up"), () => go(index - 1), sayTeam("stage_up", { t: stage.title }));
  const down = button("round", icon("down"), () => go(index + 1), sayTeam("stage_down", { t: stage.title }));
  up.disabled = index === 0;
  down.disabled = index === count - 1;
  up.dataset.focus = `${key}.up`;
  down.dataset.focus = `${key}.down`;
  const more = button("adds", adds, () => {
    page.opened = open ? "" : key;
    page.draw();
  });
  more.setAttribute("aria-expanded", String(open));
  more.dataset.focus = `${key}.adds`;
  const grip = make("span", "grip", icon("grip"));
  grip.title = sayTeam("stage_drag");
  item.append(make("div", "what", name, more), up, down, grip);
  if (problem) item.append(make("p", "wrong", problem));
  if (open) item.append(teaching(page, index));
  return item;
}

/** @param {RulesPage} page @param {number} index */
function teaching(page, index) {
  const { words, team } = page.context;
  const stage = (page.data.stages ?? [])[index];
  const known = order(words, "actions");
  const kinds = [...page.data.actions, ...page.data.lane].filter((kind) => !team.vocabulary.always.includes(kind));
  kinds.sort((a, b) => known.indexOf(a) - known.indexOf(b));
  const ticks = kinds.map((kind) => {
    const made = tick(action(words, kind), stage.adds.includes(kind), (on) => page.draft?.edit((data) => teach(data, index, kind, on)));
    /** @type {HTMLElement} */ (made.firstElementChild).dataset.focus = `stage.${index}.${kind}`;
    return made;
  });
  const out = button("plain small", sayTeam("stage_out"), () => {
    page.opened = "";
    page.draft?.edit((data) => data.stages?.splice(index, 1));
  });
  return make("div", "teaching", make("div", "ticks", ...ticks), out);
}

/** Drag a row by its grip. @param {RulesPage} page @param {HTMLElement} rows */
function dragging(page, rows) {
  rows.addEventListener("pointerdown", (event) => {
    const grip = /** @type {Element} */ (event.target).closest(".grip");
    const item = /** @type {HTMLElement | null} */ (grip?.closest(".stage") ?? null);
    if (!item) return;
    event.preventDefault();
    rows.setPointerCapture(event.pointerId);
    item.classList.add("dragged");
    const from = Number(item.dataset.index);
    const move = (/** @type {PointerEvent} */ next) => {
      for (const other of rows.children) {
        if (other === item) continue;
        const box = other.getBoundingClientRect();
        // Rows are tall on a phone, and are held at their top.
        const middle = box.top + Math.min(box.height / 2, 50);
        const above = Boolean(item.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_PRECEDING);
        if (above && next.clientY < middle) return other.before(item);
        if (!above && next.clientY > middle) return other.after(item);
      }
    };
    const stop = () => {
      rows.removeEventListener("pointermove", move);
      item.classList.remove("dragged");
      const to = [...rows.children].indexOf(item);
      page.opened = "";
      if (to !== from) page.draft?.edit((data) => moveStage(data, from, to));
      else page.draw();
    };
    rows.addEventListener("pointermove", move);
    rows.addEventListener("pointerup", stop, { once: true });
    rows.addEventListener("pointercancel", stop, { once: true });
  });
}
