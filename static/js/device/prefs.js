/** What this device remembers for itself: how the coach looks at the court. Never sent anywhere. */

/**
 * @typedef {object} Prefs
 * @property {boolean} turned  basket at the bottom
 * @property {boolean} mirrored
 * @property {"auto" | "day" | "gym"} theme
 * @property {boolean} left  the controls lie for the left hand
 * @property {boolean} named  names are shown
 * @property {Record<string, string>} names  by number
 * @property {string[] | null} learned  the first hints that are done with; null: none has been shown yet
 */

const KEY = "quintet.view";

/** @type {Prefs} */
const FRESH = { turned: false, mirrored: false, theme: "auto", left: false, named: false, names: {}, learned: null };

/** @returns {Prefs} */
export function loadPrefs() {
  try {
    return { ...FRESH, ...JSON.parse(localStorage.getItem(KEY) ?? "{}") };
  } catch {
    return { ...FRESH };
  }
}

/** @param {Prefs} prefs */
export function savePrefs(prefs) {
  try {
    localStorage.setItem(KEY, JSON.stringify(prefs));
  } catch {
    // A private window keeps nothing; the board works all the same.
  }
}

/** The apron of each theme, for what the system draws around the page. */
const AROUND = { light: "#ebe7de", dark: "#0b1117" };

/** Show a theme at once. @param {Prefs["theme"]} theme */
export function wearTheme(theme) {
  if (theme === "auto") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
  for (const meta of /** @type {NodeListOf<HTMLMetaElement>} */ (document.querySelectorAll("meta[name='theme-color']"))) {
    const dark = theme === "auto" ? meta.media.includes("dark") : theme === "gym";
    meta.content = dark ? AROUND.dark : AROUND.light;
  }
}

/** Put the controls and the words where the hand is; the court stays as it is. @param {boolean} left */
export function wearHand(left) {
  document.body.classList.toggle("left-handed", left);
}
