/** The team page: where a coach chooses, changes, checks and trusts the rules. Puts its parts together. */

import { loadPrefs, wearTheme } from "../device/prefs.js";
import { ask } from "../team/team-api.js";
import { openCalls } from "../team/calls.js";
import { make } from "../ui/dom.js";
import { openFormation } from "../team/formation-page.js";
import { openFormationsList } from "../team/formations-list.js";
import { awaited, sentenceOf, toast } from "../team/frame.js";
import { sayTeam } from "../words/team-words.js";
import { openRulesList } from "../team/rules-list.js";
import { openRules } from "../team/rules-page.js";
import { openSquad } from "../team/squad.js";
import { speaker } from "../words/speaker.js";

/**
 * @typedef {import("../team/frame.js").PageContext} PageContext
 * @typedef {import("../team/frame.js").TeamView} TeamView
 * @typedef {import("../team/team-api.js").TeamData} TeamData
 */

const SECTIONS = ["rules", "formations", "squad", "words"];

wearTheme(loadPrefs().theme);

const main = /** @type {HTMLElement} */ (document.getElementById("main"));
const tabs = [...document.querySelectorAll(".tabs a")];
const said = /** @type {HTMLElement} */ (document.getElementById("said"));
const heading = /** @type {HTMLElement} */ (document.getElementById("team-name"));

/** @type {PageContext | null} */
let context = null;
/** @type {TeamView | null} */
let view = null;
let visits = 0;

/** @returns {Promise<PageContext>} */
async function begin() {
  const team = /** @type {TeamData} */ (await ask("GET", "team"));
  /** @type {PageContext} */
  const made = {
    board: document.body.dataset.board ?? "",
    words: speaker(),
    team,
    refresh: async () => (made.team = await ask("GET", "team")),
    go: (hash) => {
      if (location.hash === hash) void show();
      else location.hash = hash;
    },
    redraw: () => void show(true),
    toast: (sentence, undo) => toast(said, sentence, undo),
    complain: (error) => toast(said, sentenceOf(error)),
  };
  heading.textContent = team.name;
  return made;
}

/** @param {PageContext} given @param {string} section @param {string[]} rest @returns {Promise<TeamView> | TeamView} */
function open(given, section, rest) {
  if (section === "formations") return rest.length ? openFormation(given, rest) : openFormationsList(given);
  if (section === "squad") return openSquad(given);
  if (section === "words") return openCalls(given);
  return rest.length ? openRules(given, rest) : openRulesList(given);
}

/** Show what the address says. @param {boolean} [anew]  even if it is on show already */
async function show(anew = false) {
  const [first, ...rest] = location.hash.slice(1).split("/").map(decodeURIComponent);
  const section = SECTIONS.includes(first) ? first : SECTIONS[0];
  for (const tab of tabs) {
    if (tab.getAttribute("href") === `#${section}`) tab.setAttribute("aria-current", "page");
    else tab.removeAttribute("aria-current");
  }
  const key = rest.length ? `${section}/${rest[0]}` : section;
  if (view?.key === key && view.turn && !anew) {
    view.turn(rest);
    return;
  }
  const visit = ++visits;
  const old = view;
  view = null;
  old?.close?.();
  if (!anew && !said.querySelector(".undo")) said.replaceChildren();
  document.body.classList.toggle("deep", rest.length > 0);
  const place = awaited(async () => {
    context ??= await begin();
    const made = await open(context, section, rest);
    if (visit !== visits) {
      made.close?.();
      return make("div");
    }
    view = made;
    document.title = sayTeam("page_title", { title: made.title, team: context.team.name });
    return made.element;
  });
  main.replaceChildren(place);
  if (!anew) window.scrollTo({ top: 0 });
  if (old && !anew) main.focus({ preventScroll: true });
}

window.addEventListener("hashchange", () => void show());
window.addEventListener("beforeunload", (event) => {
  // What is unsaved is kept on this device; where it cannot be kept, the browser asks.
  if (view?.unsaved?.() && !storageWorks()) event.preventDefault();
});

function storageWorks() {
  try {
    localStorage.setItem("quintet.try", "1");
    localStorage.removeItem("quintet.try");
    return true;
  } catch {
    return false;
  }
}

main.setAttribute("aria-label", sayTeam("sections"));
void show();
