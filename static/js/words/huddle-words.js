/** What the clock, the big view and sharing in the huddle say. */

import table from "../../../engine/locales/en/huddle.json" with { type: "json" };
import { sayer } from "./sayer.js";

export const sayHuddle = /* @__PURE__ */ sayer("huddle", table);
