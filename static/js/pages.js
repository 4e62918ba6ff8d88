/** The quiet pages: the light this device has chosen, and a code that is typed as it is read. */

import { loadPrefs, wearTheme } from "./prefs.js";

wearTheme(loadPrefs().theme);

const code = document.getElementById("code");
if (code instanceof HTMLInputElement) {
  code.addEventListener("input", () => {
    // Codes have no spaces or dashes; coaches read them with a pause, so players type one.
    const tidy = code.value.toUpperCase().replace(/[^A-Z0-9]/g, "").slice(0, 6);
    if (tidy !== code.value) code.value = tidy;
  });
}
