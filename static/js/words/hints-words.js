/** What the first hints on the coach's board say. */

import table from "../../../engine/locales/en/hints.json" with { type: "json" };
import { sayer } from "./sayer.js";

export const sayHints = /* @__PURE__ */ sayer("hints", table);
