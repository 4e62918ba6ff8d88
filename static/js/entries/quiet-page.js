/** The quiet pages: the light this device has chosen, codes that are typed, and forgetting what is turned off. */

import { startWhereLeft } from "../device/install.js";
import { loadPrefs, wearTheme } from "../device/prefs.js";

wearTheme(loadPrefs().theme);
startWhereLeft();

const code = document.getElementById("code");
if (code instanceof HTMLInputElement) {
  code.addEventListener("input", () => {
    // Codes have no spaces or dashes; coaches read them with a pause, so players type one.
    const tidy = code.value.toUpperCase().replace(/[^A-Z0-9]/g, "").slice(0, 6);
    if (tidy !== code.value) code.value = tidy;
  });
}

const adding = document.querySelector("form.add");
if (adding && matchMedia("(display-mode: standalone)").matches) {
  // The app on the home screen has a key of its own, and a name that tells it from the browser's.
  adding.append(Object.assign(document.createElement("input"), { type: "hidden", name: "app", value: "yes" }));
}

const wiped = /** @type {HTMLElement | null} */ (document.querySelector("[data-off]"));
if (wiped) {
  const { done = "", part = "", failed = "" } = wiped.dataset;
  import("../device/kept-copy.js")
    .then((device) => device.forgetWhatIsOff())
    .then(
      (what) => (wiped.textContent = { all: done, part, nothing: "" }[what]),
      () => (wiped.textContent = failed),
    );
}
