/** What a player sets on the phone: direction and light, kept on the phone; speed and pace, for this sitting. */

import { savePrefs, wearTheme } from "../device/prefs.js";
import { el } from "./line-state.js";
import { openPace, showPace } from "../ui/pace.js";
import { sayViewer } from "../words/viewer-words.js";

/** Speeds to look back at. */
const RATES = [0.5, 1];

/**
 * @typedef {import("../device/prefs.js").Prefs} Prefs
 * @param {Prefs} prefs  changed in place
 * @param {object} on
 * @param {() => void} on.turned
 * @param {import("../board/transport.js").Transport} transport
 */
export function openSettings(prefs, on, transport) {
  const settle = () => {
    el("turn").setAttribute("aria-pressed", String(prefs.turned));
    el("theme").dataset.theme = prefs.theme;
    el("theme").setAttribute("aria-label", sayViewer(`lights.${prefs.theme}`));
    savePrefs(prefs);
  };
  el("rate").addEventListener("click", () => openPace({
    pace: transport, rates: RATES, seconds: () => transport.lasts,
    choose(pace) {
      transport.choose(pace);
      showPace(el("rate"), pace, true);
    },
  }));
  showPace(el("rate"), transport, true);
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
