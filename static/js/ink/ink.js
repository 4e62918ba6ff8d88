/** Ink on the coach's board: the tools, the pad, what is on show, and the keys. */

import { InkLayer } from "./draw.js";
import { keyOf, seen, TOOLS, touched } from "./model.js";
import { openPad } from "./pad.js";
import { InkPanel } from "./pencil-case.js";
import { Pencil } from "./pencil.js";
import { newKey, openSync } from "./sync.js";
import { sayInk } from "../words/ink-words.js";
import { afterRest, inFrame } from "../device/scheduling.js";
import { wearStyle } from "../device/styles.js";

/**
 * @typedef {import("./model.js").Stroke} Stroke
 * @typedef {import("./pencil-case.js").Tool} Tool
 * @typedef {import("./sync.js").Spot} Spot
 *
 * @typedef {object} InkParts
 * @property {import("../court/court-view.js").CourtView} court
 * @property {import("../board/desk.js").Desk} desk
 * @property {import("../board/transport.js").Transport} transport
 * @property {(sentence: string, way?: {word: string, act: () => void}) => void} say
 * @property {() => void} counted  more or less of it waits
 *
 * @typedef {{draw: () => void, waits: {readonly waiting: number, readonly kept: number}}} Ink  draw: what is looked at
 *   may have changed; waits: how much the server has not acknowledged
 */

/** How far a rubber reaches, CSS pixels. */
const REACH = 16;
/** What was done on this device can be taken back so often. */
const UNDO_MAX = 200;

/** @param {InkParts} board @returns {Promise<Ink>} */
export async function openInk({ court, desk, transport, say, counted }) {
  await wearStyle("ink");
  const id = String(document.body.dataset.board);
  const layer = new InkLayer(court.actorLayer);
  const pencil = new Pencil(layer.root);
  /** However much comes at once, it is drawn once. */
  const drawSoon = inFrame(() => draw(true, false));
  /** The tools can wait until the pencil rests: the frame in which a stroke ends has enough to do. */
  const panelSoon = afterRest(drawPanel);
  const sync = openSync(id, () => (drawSoon(), counted()), say);
  let open = false;
  let penSeen = false;
  /** What a finger draws with, null: it taps the game. A pencil draws with the last one. @type {Tool | null} */
  let tool = null;
  /** @type {Tool} */
  let last = "pen";
  let colour = 0;
  /** The stroke under way, or the strokes a rubber has touched so far. */
  let wet = /** @type {{stroke: Stroke, spot: Spot} | null} */ (null);
  let rubbed = /** @type {{ids: Set<string>, spot: Spot} | null} */ (null);
  /** @type {{key: string, back: "rub" | "back", ids: string[]}[]} */
  let done = [];
  let drawn = "";

  const opener = document.createElement("button");
  opener.type = "button";
  opener.className = "ink-open";
  opener.setAttribute("aria-pressed", "false");
  const footer = /** @type {HTMLElement} */ (document.querySelector("footer.controls"));
  const panel = new InkPanel(footer, {
    tool(chosen) {
      // Once more: the finger taps the game again.
      tool = chosen === tool && !penSeen ? null : chosen;
      last = chosen;
      draw(true);
    },
    colour(chosen) {
      colour = chosen;
      if (!tool || tool === "rubber") tool = last = last === "rubber" ? "pen" : last;
      draw(true);
    },
    undo,
    clear,
  });
  const sign = panel.tools.get("pen")?.firstElementChild?.cloneNode(true);
  if (sign) opener.append(sign);
  opener.append(sayInk("draw"));
  opener.addEventListener("click", () => toggle(!open));
  footer.querySelector(".track")?.after(opener);

  /** @param {boolean} on */
  function toggle(on) {
    open = on;
    if (on) pencil.open();
    // Whoever opens it means to draw: a finger does so at once, until a pencil is seen, or its tool is put down.
    [tool, penSeen] = [on ? (last === "rubber" ? (last = "pen") : last) : null, false];
    opener.setAttribute("aria-pressed", String(on));
    panel.root.hidden = !on;
    document.body.classList.toggle("inking", on);
    if (!on && panel.root.contains(document.activeElement)) opener.focus();
    draw(true);
  }

  /** The step that is looked at. @returns {Spot | null} */
  function spotNow() {
    const { state } = desk;
    if (!state.known || !state.chain) return null;
    const { formation, rules } = state.board;
    const line = state.steps.slice(0, transport.depth).map(({ a }) => a);
    return { chain: state.chain.id, formation, rules, line };
  }

  /** @param {boolean} [anew] @param {boolean} [tools]  at once */
  function draw(anew = false, tools = true) {
    const spot = spotNow();
    const { projection } = court;
    if (!spot || !projection) return;
    const key = keyOf(spot);
    if (projection !== layer.projection) grow();
    if (!anew && key === drawn && projection === layer.projection) return;
    drawn = key;
    const page = sync.pages.get(key) ?? null;
    const away = rubbed?.ids;
    layer.show(spot, page && away ? { ...page, strokes: page.strokes.filter((stroke) => !away.has(stroke.id)) } : page, projection);
    for (const known of [...layer.growing.keys()]) if (!sync.wet.has(known) && known !== wet?.stroke.id) layer.grow(known, null);
    for (const [other, { key: on, stroke }] of sync.wet) layer.grow(other, on === key ? stroke : null);
    if (!wet) pencil.away();
    if (tools) drawPanel();
    else panelSoon(key);
  }

  function drawPanel() {
    const spot = spotNow();
    if (!spot) return;
    const key = keyOf(spot);
    const strokes = seen(sync.pages.get(key) ?? null).length;
    panel.draw({ tool: penSeen ? last : tool, colour, strokes, undo: done.some((each) => each.key === key) });
  }

  /** @param {Spot} spot @param {"rub" | "back"} back @param {string[]} ids */
  const note = (spot, back, ids) => {
    done = [...done.slice(1 - UNDO_MAX), { key: keyOf(spot), back, ids }];
  };

  function undo() {
    const spot = spotNow();
    const at = spot ? done.map(({ key }) => key).lastIndexOf(keyOf(spot)) : -1;
    if (!spot || at < 0) return false;
    const { back, ids } = done[at];
    done = done.filter((_, i) => i !== at);
    sync.change(back, ids, spot);
    return true;
  }

  function clear() {
    const spot = spotNow();
    const ids = spot ? seen(sync.pages.get(keyOf(spot))).map((stroke) => stroke.id) : [];
    if (!spot || !ids.length) return;
    note(spot, "back", ids);
    sync.change("rub", ids, spot);
    say(sayInk("cleared"), { word: sayInk("undo_word"), act: () => void undo() });
  }

  /** @param {import("./pad.js").Sample[]} samples @returns {import("./model.js").InkPoint[]} */
  const placed = (samples) => samples.map(({ x, y, pressure }) => {
    const [cx, cy] = court.projection?.cm([x, y]) ?? [0, 0];
    return [Math.round(cx), Math.round(cy), pressure];
  });

  /** @param {import("./pad.js").Sample[]} samples */
  function rub(samples) {
    if (!rubbed || !court.projection) return;
    const strokes = seen(sync.pages.get(keyOf(rubbed.spot)));
    for (const [x, y] of placed(samples)) {
      for (const stroke of touched(strokes, [x, y], REACH / court.projection.scale)) rubbed.ids.add(stroke.id);
    }
    drawSoon();
  }

  const growSoon = inFrame(() => {
    if (wet) layer.grow(wet.stroke.id, wet.stroke);
  });
  const grow = () => {
    if (!wet) return;
    if (court.projection && pencil.draw(wet.stroke, court.projection)) {
      // It may have begun before the worker was ready.
      if (layer.growing.has(wet.stroke.id)) layer.grow(wet.stroke.id, null);
      return;
    }
    court.root.classList.add("shielded");
    growSoon();
  };

  openPad(court.root, {
    open: () => open,
    byFinger: () => tool !== null && !penSeen,
    pen() {
      if (penSeen) return;
      penSeen = true;
      draw(true);
    },
    barred: () => say(penSeen ? sayInk("pencil_draws") : sayInk("choose_tool")),
    tapped: () => say(sayInk("taps_rest")),
    begin(samples, rubber) {
      const spot = spotNow();
      if (!spot) {
        say(sayInk("not_yet"));
        return false;
      }
      if (rubber || last === "rubber") {
        rubbed = { ids: new Set(), spot };
        rub(samples);
        return true;
      }
      const stroke = { id: newKey(), tool: TOOLS.indexOf(last), colour, points: placed(samples) };
      wet = { stroke, spot };
      court.root.classList.add("writing");
      sync.begin(stroke, spot);
      grow();
      return true;
    },
    more(samples) {
      if (rubbed) return rub(samples);
      if (!wet) return;
      const { points } = wet.stroke;
      for (const point of placed(samples)) {
        const before = points[points.length - 1];
        if (Math.hypot(point[0] - before[0], point[1] - before[1]) >= 2) points.push(point);
      }
      sync.more(wet.stroke);
      grow();
    },
    end(keep) {
      if (rubbed) {
        const { ids, spot } = rubbed;
        rubbed = null;
        if (keep && ids.size) {
          note(spot, "back", [...ids]);
          sync.change("rub", [...ids], spot);
        }
      }
      if (wet) {
        const { stroke, spot } = wet;
        wet = null;
        court.root.classList.remove("writing", "shielded");
        if (keep) {
          note(spot, "rub", [stroke.id]);
          sync.put(stroke, spot);
        } else sync.drop(stroke);
      }
      drawSoon();
    },
  });

  // Before the board's own keys: what was drawn last is taken back before what was played.
  document.addEventListener("keydown", (event) => {
    const target = event.target instanceof Element ? event.target : document.body;
    if (target.closest("input, textarea, select, dialog") || event.altKey) return;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    const command = event.ctrlKey || event.metaKey;
    let mine = false;
    if (key === "d" && !command) mine = (toggle(!open), true);
    else if (!open) return;
    else if (((key === "z" && command && !event.shiftKey) || (key === "u" && !command)) && undo()) mine = true;
    else if (key === "Delete" || key === "Backspace") mine = (clear(), true);
    else if (key === "Escape") mine = (toggle(false), true);
    if (!mine) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  }, { capture: true });

  draw(true);
  return { draw: () => draw(), waits: sync };
}
