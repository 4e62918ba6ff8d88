/** What a player sets on the phone: speed, direction, light. Kept on the phone. */

import { savePrefs, wearTheme } from "../device/prefs.js";
import { el } from "./line-state.js";
import { sayViewer } from "../words/viewer-words.js";

/**
 * @typedef {import("../device/prefs.js").Prefs} Prefs
 * @param {Prefs} prefs  changed in place
 * @param {object} on
 * @param {() => void} on.turned
 * @param {(rate: number) => void} on.settled  after every change, and once now
 */
export function openSettings(prefs, on) {
  const settle = () => {
    const slow = prefs.rate === 0.5;
    el("rate").textContent = slow ? "½×" : "1×";
    el("rate").setAttribute("aria-label", slow ? sayViewer("half") : sayViewer("full"));
    el("turn").setAttribute("aria-pressed", String(prefs.turned));
    el("theme").dataset.theme = prefs.theme;
    el("theme").setAttribute("aria-label", sayViewer(`lights.${prefs.theme}`));
    savePrefs(prefs);
    on.settled(slow ? 0.5 : 1);
  };
  el("rate").addEventListener("click", () => {
    prefs.rate = prefs.rate === 1 ? 0.5 : 1;
    settle();
  });
  el("turn").addEventListener("click", () => {
    prefs.turned = !prefs.turned;
    on.turned();
    settle();
  });
  el("theme").addEventListener("click", () => {
    const order = /** @type {Prefs["theme"][]} */ (["auto", "day", "gym"]);
    prefs.theme = order[(order.indexOf(prefs.theme) + 1) % order.length];
    wearTheme(prefs.theme);
    settle();
  });
  settle();
}
