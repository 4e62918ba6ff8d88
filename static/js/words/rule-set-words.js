/** What the rule sets that ship are called, and their stages; a team's own are called what the team calls them. */

import table from "../../../engine/locales/en/rule_sets.json" with { type: "json" };
import { sayer } from "./sayer.js";

const say = /* @__PURE__ */ sayer("rule_sets", table);

/** @param {string} ref @param {string} title  its own */
export const titleOfRules = (ref, title) => (ref in table ? say(/** @type {never} */ (`${ref}.title`)) : title);

/** @param {string} ref @param {number} index @param {string} title  its own */
export const titleOfStage = (ref, index, title) => (ref in table ? say(/** @type {never} */ (`${ref}.stages.${index + 1}`)) : title);
