/**
 * The page for printing: a choice is shown at once, by asking the server for the same page with it. Without
 * this module the page works with its button.
 */

import { loadPrefs } from "../device/prefs.js";
import { sayPrint } from "../words/print-words.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("choices"));
const trouble = /** @type {HTMLElement} */ (document.getElementById("trouble"));
let asked = 0;

document.body.classList.add("live");
const fresh = !location.search.includes("paper=");
if (fresh) asOnBoard();
form.addEventListener("change", show);
form.addEventListener("submit", (event) => {
  event.preventDefault();
  show();
});

/** Look at the floor as this device does on the board, until something else is chosen. */
function asOnBoard() {
  const { mirrored, turned } = loadPrefs();
  for (const [name, on] of Object.entries({ mirror: mirrored, turn: turned })) {
    const box = form.elements.namedItem(name);
    if (box instanceof HTMLInputElement && on) box.checked = true;
  }
  if (mirrored || turned) show();
}

/** The address of this page with what is chosen. */
function address() {
  const query = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (value !== "") query.append(name, String(value));
  return `${location.pathname}?${query}`;
}

async function show() {
  const turn = ++asked;
  const old = /** @type {HTMLElement} */ (document.getElementById("result"));
  old.setAttribute("aria-busy", "true");
  const found = await fetchPage(address());
  if (turn !== asked) return;
  old.removeAttribute("aria-busy");
  trouble.hidden = found.result !== null;
  trouble.textContent = found.complaint;
  if (!found.result) return;
  old.replaceWith(found.result);
  history.replaceState(null, "", address());
}

/** @param {string} url @returns {Promise<{result: Element | null, complaint: string}>} */
async function fetchPage(url) {
  try {
    const answer = await fetch(url);
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const result = page.getElementById("result");
    const said = page.querySelector("[role=alert]")?.textContent ?? "";
    return { result, complaint: result ? "" : said || sayPrint("not_shown") };
  } catch {
    return { result: null, complaint: sayPrint("no_connection") };
  }
}
