/** The timeout clock on the board: a slim strip at the head of the words, so that the court keeps its place. */

import { button, make } from "../menu/elements.js";
import { stayAwake } from "../device/wake.js";
import { buzz, canBuzz, sound, tuneIn } from "./clock-sound.js";
import { figure, leftAt, levelAt, passed, PRESETS, ready, revived, started, STEP, stopped, untilNext, within } from "./clock-time.js";
import { sayHuddle } from "../words/huddle-words.js";

/** @typedef {import("./clock-time.js").Clock} Clock */

/** Where this device keeps the clock and what was chosen last. */
export const KEY = "quintet.clock";
const USUAL = 60;

/** What is kept. */
let kept = { clock: ready(USUAL), shown: false, chosen: false, sound: false, buzz: false };
let timer = 0;
/** Seconds left when it was last looked at. */
let seen = 0;

const now = () => Date.now();

const drain = make("i", "drain");
const shown = make("b", "figure");
const word = make("span", "word");
const spoken = make("span", "unseen");
const go = button("go", sayHuddle("start"), () => act());
const again = button("plain", sayHuddle("reset"), () => change(ready(kept.clock.length)));
const settings = button("plain", sayHuddle("set"), () => setting(set.hidden));
const away = button("away", "×", hide);
const set = make("div", "set");
const ownFigure = make("b", "");
const ownStart = button("go", "", () => begin(own));
const strip = make("div", "strip", drain, shown, word, go, again, settings, away);
const root = make("section", "clock", strip, set, spoken);
let own = USUAL;

/** Show the clock; shown already, its settings. */
export function openClock() {
  if (!root.isConnected) build();
  if (!root.hidden) return setting(set.hidden);
  keep({ shown: true });
  setting(!kept.chosen);
  draw();
}

function build() {
  root.id = "clock";
  root.hidden = true;
  root.setAttribute("aria-label", sayHuddle("clock"));
  shown.setAttribute("role", "timer");
  spoken.setAttribute("role", "status");
  away.setAttribute("aria-label", sayHuddle("hide"));
  drain.ariaHidden = "true";
  word.ariaHidden = "true";
  const marks = make("div", "switches", make("span", "", sayHuddle("at_marks")), toggle("sound", sayHuddle("sound")));
  if (canBuzz) marks.append(toggle("buzz", sayHuddle("buzz")));
  set.append(
    make("p", "", sayHuddle("tap_to_start")),
    make("div", "lengths", ...PRESETS.map(preset)),
    make("div", "own", make("span", "", sayHuddle("own")), step(-STEP, "−5", sayHuddle("less")), ownFigure, step(STEP, "+5", sayHuddle("more")), ownStart),
    marks,
  );
  document.querySelector(".sheet")?.before(root);
  recall();
  // What was missed while nobody looked is seen at once.
  document.addEventListener("visibilitychange", draw);
  window.addEventListener("pageshow", draw);
}

/** @param {{seconds: number, whose: string}} given */
function preset({ seconds, whose }) {
  const made = button("length", "", () => begin(seconds));
  made.append(make("b", "", sayHuddle("seconds", { n: seconds })), make("small", "", whose));
  made.setAttribute("aria-label", sayHuddle("start_of", { n: seconds, whose }));
  made.dataset.seconds = String(seconds);
  return made;
}

/** @param {number} by seconds @param {string} sign @param {string} label */
function step(by, sign, label) {
  const made = button("plain", sign, () => ((own = within(own + by)), drawOwn()));
  made.setAttribute("aria-label", label);
  return made;
}

/** @param {"sound" | "buzz"} name @param {string} text */
function toggle(name, text) {
  const made = button("plain", text, () => {
    keep({ [name]: !kept[name] });
    if (name === "sound" && kept.sound) (tuneIn(), setTimeout(sound, 60, 15));
    if (name === "buzz" && kept.buzz) buzz(15);
    made.setAttribute("aria-pressed", String(kept[name]));
  });
  made.dataset.toggle = name;
  return made;
}

/** One tap does what is wanted next: start, stop, go on; after the end, get ready again. */
function act() {
  const { clock } = kept;
  if (clock.ends !== null && leftAt(clock, now()) > 0) change(stopped(clock, now()));
  else if (clock.ends !== null) change(ready(clock.length));
  else run(clock);
}

/** @param {number} length seconds */
function begin(length) {
  run(ready(length));
}

/** @param {Clock} clock */
function run(clock) {
  if (kept.sound) tuneIn();
  stayAwake();
  setting(false);
  keep({ chosen: true });
  change(started(clock, now()));
}

/** @param {Clock} clock */
function change(clock) {
  keep({ clock });
  seen = leftAt(clock, now());
  draw();
}

function hide() {
  keep({ shown: false, clock: ready(kept.clock.length) });
  draw();
}

/** @param {boolean} open */
function setting(open) {
  set.hidden = !open;
  settings.setAttribute("aria-expanded", String(open));
  own = kept.clock.length;
  drawOwn();
}

function drawOwn() {
  ownFigure.textContent = figure(own);
  ownStart.textContent = sayHuddle("start_own", { figure: figure(own) });
  for (const each of set.querySelectorAll(".length")) {
    each.toggleAttribute("data-last", kept.chosen && /** @type {HTMLElement} */ (each).dataset.seconds === String(kept.clock.length));
  }
}

function draw() {
  clearTimeout(timer);
  root.hidden = !kept.shown;
  document.body.classList.toggle("timing", kept.shown);
  if (!kept.shown) return;
  const { clock } = kept;
  const running = clock.ends !== null;
  const left = leftAt(clock, now());
  const level = levelAt(left);
  const mark = running ? passed(seen, left) : null;
  seen = left;
  if (mark !== null && kept.sound) sound(mark);
  if (mark !== null && kept.buzz) buzz(mark);
  const state = running ? (level === "over" ? "over" : "running") : left < clock.length ? "held" : "ready";
  root.dataset.state = state;
  root.dataset.level = level;
  strip.style.setProperty("--left", String(left / clock.length));
  write(shown, figure(left));
  write(word, level === "run" ? (state === "held" ? sayHuddle("standing") : "") : sayHuddle(`${level}`));
  write(spoken, running ? sayHuddle(`spoken.${level}`) : "");
  write(go, { ready: sayHuddle("start"), running: sayHuddle("stop"), held: sayHuddle("go_on"), over: sayHuddle("reset") }[state]);
  again.hidden = state !== "held";
  settings.hidden = away.hidden = state === "running" || state === "held";
  if (state === "over") settings.hidden = true;
  if (state === "running") timer = window.setTimeout(draw, untilNext(left));
}

/** @param {HTMLElement} element @param {string} text */
function write(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** @param {Partial<typeof kept>} patch */
function keep(patch) {
  kept = { ...kept, ...patch };
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // A private window keeps nothing; the clock runs all the same.
  }
}

function recall() {
  try {
    const found = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    const clock = revived(found.clock);
    kept = {
      clock: clock ?? kept.clock,
      shown: found.shown === true,
      chosen: clock !== null && found.chosen === true,
      sound: found.sound === true,
      buzz: found.buzz === true,
    };
  } catch {
    // What cannot be read is not there.
  }
  for (const each of /** @type {NodeListOf<HTMLElement>} */ (set.querySelectorAll("[data-toggle]"))) {
    each.setAttribute("aria-pressed", String(each.dataset.toggle === "sound" ? kept.sound : kept.buzz));
  }
  seen = leftAt(kept.clock, now());
  setting(false);
  // After loading the page again only a tap lets it sound.
  if (kept.sound) document.addEventListener("pointerup", tuneIn, { once: true });
}

/** As it was left, when the page is opened again. */
export function showAgain() {
  if (!root.isConnected) build();
  draw();
}
