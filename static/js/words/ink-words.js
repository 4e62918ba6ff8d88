/** What the tools of ink say. */

import table from "../../../engine/locales/en/ink.json" with { type: "json" };
import { sayer } from "./sayer.js";

export const sayInk = /* @__PURE__ */ sayer("ink", table);

/** @param {number} n */
export const sayStrokes = (n) => (n ? sayInk("strokes", { n }) : sayInk("no_strokes"));
