/**
 * The big view, for a huddle around a tablet and for a projector: the court alone, drawn larger. The buttons come
 * when the floor is touched and go by themselves; the edges of the floor wind the film without them.
 */

import { toast } from "../ui/toast.js";
import { element } from "../board/status.js";
import { BREATH } from "../steps/figures.js";
import { stayAwake } from "../device/wake.js";
import { sayHuddle } from "../words/huddle-words.js";

/** @typedef {import("../board/transport.js").Transport} Transport */

/** The buttons stay so long after the last touch, milliseconds. */
const STAY_MS = 4000;
/** A finger that moves further than this, CSS pixels, does not tap. */
const SLOP = 14;
/** A second tap where Close was so soon after it means nothing: other buttons lie there then. */
const DEAF_MS = 500;
/** How much of the floor each edge takes, as a share. */
const EDGE = 0.16;

const page = document.body;
const court = element("court");
/** @type {Transport} */
let transport;
/** As it was played before. @type {import("../ui/pace.js").Pace} */
let before = { rate: 1, taught: true };
let listening = false;
let timer = 0;
/** The finger that came down on the free floor. @type {{id: number, x: number, y: number} | null} */
let down = null;

export const isOn = () => page.classList.contains("presenting");

/** Begin. Call it from a tap: only then may the page fill the screen. @param {Transport} film */
export function present(film) {
  transport = film;
  if (!isOn()) before = { rate: film.rate, taught: film.taught };
  // A time-out is short: everybody arrives, and the next action begins.
  film.setPace({ breath: 0 });
  if (!listening) listen();
  page.classList.add("presenting");
  stayAwake();
  fill();
  show();
  // Upright the buttons stay: the floor leaves room for them.
  toast(element("toast"), sayHuddle(matchMedia("(max-aspect-ratio: 1/1)").matches ? "big_hint_upright" : "big_hint"));
}

export function leave() {
  if (!isOn()) return;
  // Speed and pace of one time-out are not the next one's.
  transport.setPace({ taught: before.taught, breath: BREATH });
  if (transport.rate !== before.rate) transport.setRate(before.rate);
  clearTimeout(timer);
  page.classList.remove("presenting", "touched");
  page.classList.add("leaving");
  setTimeout(() => page.classList.remove("leaving"), DEAF_MS);
  toast(element("toast"), "");
  const close = document.exitFullscreen ?? Reflect.get(document, "webkitExitFullscreen");
  if (filled()) void Promise.resolve(close?.call(document)).catch(() => {});
  /** @type {HTMLElement | null} */ (document.querySelector("button[data-do='present']"))?.focus();
}

/** The whole screen, where the system lets a page have it; installed on a home screen it has it already. */
function fill() {
  const root = document.documentElement;
  const ask = root.requestFullscreen ?? Reflect.get(root, "webkitRequestFullscreen");
  try {
    void Promise.resolve(ask?.call(root, { navigationUI: "hide" })).catch(() => {});
  } catch {
    // The court is as large as the window then.
  }
}

const filled = () => Boolean(document.fullscreenElement ?? Reflect.get(document, "webkitFullscreenElement"));

/** The buttons, for some seconds. */
function show() {
  clearTimeout(timer);
  page.classList.add("touched");
  // The bench row stands beside the buttons, however many lines they take.
  page.style.setProperty("--controls", `${/** @type {HTMLElement} */ (document.querySelector(".controls")).offsetHeight}px`);
  timer = window.setTimeout(() => {
    // Not from under a finger or the keyboard.
    if (document.activeElement?.matches(":is(.controls, .ready) :focus-visible")) return show();
    page.classList.remove("touched");
  }, STAY_MS);
}

function hide() {
  clearTimeout(timer);
  page.classList.remove("touched");
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
}

function listen() {
  listening = true;
  // Leaving the full screen by the system's own way leaves the big view.
  for (const name of ["fullscreenchange", "webkitfullscreenchange"]) {
    document.addEventListener(name, () => filled() || leave());
  }
  document.addEventListener("keydown", (event) => {
    if (!isOn() || document.querySelector("dialog[open]")) return;
    if (event.key === "Escape") {
      event.stopPropagation();
      leave();
    } else if (event.key === "Tab") show();
  }, { capture: true });
  court.addEventListener("pointerdown", ({ isPrimary, pointerId: id, pointerType, clientX: x, clientY: y, target, button }) => {
    const floor = target instanceof Element && !target.closest("button, .target, .disc, .bench, .toast");
    // A second finger, or a palm, makes no tap of it; a pencil draws.
    down = isOn() && isPrimary && floor && button === 0 && pointerType !== "pen" ? { id, x, y } : null;
  });
  window.addEventListener("pointerup", tapped);
  window.addEventListener("pointercancel", () => (down = null));
  for (const row of [".controls", ".ready"]) document.querySelector(row)?.addEventListener("pointerdown", () => isOn() && show());
  // A play has been called: nothing lies over the court while it runs.
  document.querySelector(".ready")?.addEventListener("click", ({ target }) => {
    if (isOn() && target instanceof Element && target.closest(".chip")) hide();
  });
}

/** @param {PointerEvent} event */
function tapped({ pointerId, clientX: x, clientY: y }) {
  const began = down;
  if (!began || began.id !== pointerId) return;
  down = null;
  if (!isOn() || page.classList.contains("inking") || Math.hypot(x - began.x, y - began.y) > SLOP) return;
  const box = court.getBoundingClientRect();
  const [across, along] = [(x - box.left) / box.width, (y - box.top) / box.height];
  const far = court.classList.contains("turned") ? along < EDGE : along > 1 - EDGE;
  if (far) transport.toggle();
  else if (across < EDGE) transport.back();
  else if (across > 1 - EDGE) transport.forward();
  else if (page.classList.contains("touched")) return void page.classList.remove("touched");
  else show();
}
