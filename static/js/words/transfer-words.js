/** What the page says that imports a team. */

import table from "../../../engine/locales/en/transfer.json" with { type: "json" };
import { listed, sayer } from "./sayer.js";
import { sayGeneral } from "./general-words.js";

export const sayTransfer = /* @__PURE__ */ sayer("transfer", table);

/** What a thing is called in the file and here; its name in the file is left open, as {theirs}. @param {string} theirs @param {string} mine */
export const sayPair = (theirs, mine) => (theirs === mine ? "{theirs}" : sayTransfer("pair", { theirs: "{theirs}", mine }));

/** @param {string} what @param {number} n  of them are in the file */
export const sayCounted = (what, n) => (what === "boards" ? sayGeneral("boards", { n }) : what === "chains" ? sayGeneral("plays", { n }) : sayTransfer(`counts.${what}`, { n }));
/** @param {string[]} names */
export const sayTwins = (names) => sayTransfer("twins", { names: listed(names, "comma") });
