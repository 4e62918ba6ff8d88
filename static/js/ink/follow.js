/** Ink on a player's phone: seen as it is drawn, and with the step it was drawn on. */

import { InkLayer } from "./draw.js";
import { hearWet, misses } from "./heard.js";
import { listenInk, sendInk } from "../state/ink-line.js";
import { apply, keyOf, replaced } from "./model.js";
import { wearStyle } from "../device/styles.js";

/**
 * @typedef {object} Followed  what the phone shows
 * @property {Element} below  the layer that ink lies over
 * @property {() => import("../court/projection.js").Projection | null} projection
 * @property {() => {first: number, line: string[][]}} looking  how many steps came before those it holds, and those it looks at
 */

/** @param {Followed} phone @returns {() => void} what is looked at may have changed */
export function followInk({ below, projection, looking }) {
  void wearStyle("ink");
  const layer = new InkLayer(below);
  /** @type {import("./model.js").Pages} */
  let pages = new Map();
  /** @type {import("./heard.js").Wet} */
  const wet = new Map();
  let chain = "";
  let drawn = "";

  /** The page of the step on show: of a long chain a phone holds the end only. */
  function pageNow() {
    const { first, line } = looking();
    const key = keyOf({ chain, line });
    if (!first) return { key, page: pages.get(key) ?? null };
    const tail = `${key.slice(chain.length + 1)}`;
    for (const [known, page] of pages) {
      if (page.chain === chain && page.line.length === first + line.length && known.endsWith(tail)) return { key: known, page };
    }
    return { key, page: null };
  }

  /** @param {boolean} [anew] */
  function draw(anew = false) {
    const seen = projection();
    if (!seen || !chain) return;
    const { key, page } = pageNow();
    if (!anew && key === drawn && seen === layer.projection) return;
    drawn = key;
    layer.show(page ?? { chain, line: looking().line }, page, seen);
    for (const known of [...layer.growing.keys()]) if (!wet.has(known)) layer.grow(known, null);
    for (const [id, { key: on, stroke }] of wet) layer.grow(id, on === key ? stroke : null);
  }

  listenInk((message) => {
    if (message.t === "inks") {
      chain = message.chain;
      pages = replaced(new Map(), message);
      // What is on its way goes on growing: the answer may have been given before it began.
      for (const { strokes } of message.pages) for (const [id] of strokes) wet.delete(id);
    } else if (message.t === "ink") {
      hearWet(message, wet);
      if (message.do === "put" || message.do === "rub" || message.do === "back") {
        if (misses(pages, message)) sendInk({ do: "show" });
        pages = apply(pages, message);
      }
    }
    draw(true);
  }, () => wet.clear()); // whose end may have been missed
  return () => draw();
}
