/** What is said of speed and pace, on the coach's board and on a player's phone. */

import table from "../../../engine/locales/en/pace.json" with { type: "json" };
import { sayer } from "./sayer.js";

export const sayPace = /* @__PURE__ */ sayer("pace", table);
