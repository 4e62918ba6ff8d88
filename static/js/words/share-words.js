/** What the sharing panel says. */

import table from "../../../engine/locales/en/share.json" with { type: "json" };
import { languageTag, sayer } from "./sayer.js";

export const sayShare = /* @__PURE__ */ sayer("share", table);

/** @param {number} n */
export const sayViewers = (n) => (n ? sayShare("viewers", { n }) : sayShare("no_viewers"));
/** @param {number} n */
export const sayOpened = (n) => (n ? sayShare("opened", { n }) : sayShare("not_opened"));

/** The day of a time, as people write it. @param {number} then  seconds since 1970 */
export function dayOf(then) {
  const tag = languageTag === "en" ? "en-GB" : languageTag;
  return new Date(then * 1000).toLocaleDateString(tag, { day: "numeric", month: "long", year: "numeric" });
}

/** How long ago, in words. @param {number} then  seconds since 1970 @param {number} now  the same */
export function ago(then, now) {
  const minutes = Math.floor((now - then) / 60);
  if (minutes < 1) return sayShare("just_now");
  if (minutes < 60) return sayShare("minutes_ago", { n: minutes });
  const hours = Math.floor(minutes / 60);
  return hours < 24 ? sayShare("hours_ago", { n: hours }) : sayShare("days_ago", { n: Math.floor(hours / 24) });
}
