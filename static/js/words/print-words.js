/** What the page to print from says by itself. */

import table from "../../../engine/locales/en/print.json" with { type: "json" };
import { sayer } from "./sayer.js";

export const sayPrint = /* @__PURE__ */ sayer("print", table);
