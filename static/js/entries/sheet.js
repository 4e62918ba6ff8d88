/** The recovery sheet: its button prints. */

import { loadPrefs, wearTheme } from "../device/prefs.js";

wearTheme(loadPrefs().theme);

const print = /** @type {HTMLButtonElement} */ (document.getElementById("print"));
print.hidden = false;
print.addEventListener("click", () => window.print());
