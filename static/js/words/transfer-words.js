/** What the page says that imports a team. */

import table from "../../../engine/locales/en/transfer.json" with { type: "json" };
import { listed, sayer } from "./sayer.js";

export const sayTransfer = /* @__PURE__ */ sayer("transfer", table);

/** What stands beside a thing's name in the file. @param {string} theirs @param {string} mine */
export const sayPair = (theirs, mine) => [theirs, theirs === mine ? "" : sayTransfer("pair", { mine })];
/** @param {string[]} names */
export const sayTwins = (names) => sayTransfer("twins", { names: listed(names, "comma") });
