/**
 * Pencils and fingers over the court while ink is open. A pencil draws; a finger draws as long as it has a tool and no
 * pencil has been seen; any other finger taps the game as ever, and a resting palm does nothing. A tap on a player or a
 * target leaves no dot there.
 * What draws is kept from everything else on the court.
 *
 * @typedef {"pen" | "touch" | "mouse"} Kind
 * @typedef {object} Sample  in CSS pixels of the court; pressure 0 to 100
 * @property {number} x
 * @property {number} y
 * @property {number} pressure
 *
 * @typedef {object} Drawing
 * @property {() => boolean} open  ink is open
 * @property {() => boolean} byFinger  a finger or a mouse draws
 * @property {() => void} pen  a pencil has been seen
 * @property {() => void} barred  a finger goes over the bare floor as if to draw, and does not
 * @property {() => void} tapped  a player or a target was only tapped by what draws
 * @property {(samples: Sample[], rubber: boolean) => boolean} begin  false: nothing can be drawn now
 * @property {(samples: Sample[]) => void} more
 * @property {(keep: boolean) => void} end  keep: false, as if it had not been
 */

import { EVEN } from "./model.js";

/** After a pencil was near, a touch is the hand that holds it, milliseconds. */
const PALM_AFTER = 500;
/** A touch as large as this is no fingertip, CSS pixels. */
const PALM_SIZE = 56;
/** A finger that goes so far over the floor means to draw, CSS pixels. */
const VAIN = 32;
/** What moves no further than this is a tap, CSS pixels. */
const TAP = 12;
/** A click that comes so soon after what drew belongs to it, milliseconds. */
const CLICK = 400;
/** The button at a pencil's other end, in PointerEvent.buttons (Pointer Events, section 10.3.1). */
const RUBBER = 32;

/** @param {HTMLElement} root  the court @param {Drawing} on */
export function openPad(root, on) {
  /** tap: where it began on a player or a target it has not moved away from. @type {{id: number, kind: Kind, tap: {x: number, y: number} | null} | null} */
  let stroke = null;
  /** A touch that began on the bare floor and does not draw. @type {{id: number, x: number, y: number} | null} */
  let vain = null;
  /** Touches the game has; they are taken back when a pencil comes. @type {Set<number>} */
  const taps = new Set();
  /** Touches that do nothing. @type {Set<number>} */
  const palms = new Set();
  let penAt = -Infinity;
  let drewAt = -Infinity;
  let box = root.getBoundingClientRect();

  /** @param {PointerEvent} event @returns {Sample} */
  const sample = ({ clientX, clientY, pressure, pointerType }) => ({
    x: clientX - box.left, y: clientY - box.top,
    pressure: pointerType === "pen" && pressure > 0 ? Math.round(Math.min(1, pressure) * 100) : EVEN,
  });
  const keepAway = (/** @type {Event} */ event) => {
    event.stopImmediatePropagation();
    if (event.cancelable) event.preventDefault();
  };
  /** @param {boolean} keep */
  const end = (keep) => {
    if (!stroke) return;
    const { tap } = stroke;
    stroke = null;
    drewAt = performance.now();
    on.end(keep && !tap);
    if (keep && tap) on.tapped();
  };
  const isPalm = (/** @type {PointerEvent} */ event) =>
    stroke?.kind === "pen" || performance.now() - penAt < PALM_AFTER || Math.max(event.width, event.height) >= PALM_SIZE;
  /** What the game believes a finger does is taken back, as the system does it when it takes a touch away. */
  const takeBack = () => {
    vain = null;
    for (const pointerId of taps) {
      root.dispatchEvent(new PointerEvent("pointercancel", { pointerId, pointerType: "touch", bubbles: true }));
      palms.add(pointerId);
    }
    taps.clear();
  };

  root.addEventListener("pointerdown", (event) => {
    if (!on.open()) return;
    const kind = /** @type {Kind} */ (event.pointerType);
    if (kind === "pen") {
      penAt = performance.now();
      on.pen();
      takeBack();
    } else if (kind === "touch" && isPalm(event)) {
      palms.add(event.pointerId);
      return keepAway(event);
    }
    const target = event.target instanceof Element ? event.target : root;
    if (target.closest("button:not(.target, .disc), .bench, .adrift, .toast:has(button)")) return;
    const draws = kind === "pen" || (on.byFinger() && (kind === "touch" || event.button === 0));
    if (!draws) {
      if (kind !== "touch") return;
      taps.add(event.pointerId);
      if (!target.closest("button")) vain = { id: event.pointerId, x: event.clientX, y: event.clientY };
      return;
    }
    keepAway(event);
    if (stroke && stroke.kind === "touch" && kind === "touch") return; // a second finger
    // The end of the one before was lost on the way: what it drew was meant. A palm's is not.
    if (stroke) end(stroke.kind === kind);
    box = root.getBoundingClientRect();
    const rubber = Boolean(event.buttons & RUBBER);
    if (!on.begin([sample(event)], rubber)) return;
    stroke = { id: event.pointerId, kind, tap: target.closest(".target, .disc") ? { x: event.clientX, y: event.clientY } : null };
    try {
      root.setPointerCapture(event.pointerId);
    } catch {
      // It has gone already; its end will be told all the same.
    }
  }, { capture: true });

  window.addEventListener("pointermove", (event) => {
    if (event.pointerType === "pen" && on.open()) penAt = performance.now();
    if (vain?.id === event.pointerId && Math.hypot(event.clientX - vain.x, event.clientY - vain.y) > VAIN) {
      vain = null;
      on.barred();
    }
    if (!stroke || event.pointerId !== stroke.id) return;
    if (event.buttons === 0) return end(true); // lifted unseen
    if (stroke.tap && Math.hypot(event.clientX - stroke.tap.x, event.clientY - stroke.tap.y) > TAP) stroke.tap = null;
    const all = event.getCoalescedEvents?.() ?? [];
    on.more((all.length ? all : [event]).map(sample));
  });
  window.addEventListener("pointerup", (event) => {
    taps.delete(event.pointerId);
    if (vain?.id === event.pointerId) vain = null;
    if (palms.delete(event.pointerId)) drewAt = performance.now();
    if (event.pointerType === "pen" && on.open()) penAt = performance.now();
    if (stroke?.id === event.pointerId) end(true);
  });
  window.addEventListener("pointercancel", (event) => {
    taps.delete(event.pointerId);
    palms.delete(event.pointerId);
    if (vain?.id === event.pointerId) vain = null;
    if (stroke?.id === event.pointerId) end(false);
  });
  // Called away in the middle of a stroke: what is there stays.
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && end(true));

  // The floor is ours: the browser makes no swipe of it, whose end would swallow a tap on a tool.
  root.addEventListener("touchstart", (event) => {
    const bare = on.open() && event.target instanceof Element && !event.target.closest("button, .bench, .adrift, .toast:has(button)");
    if ((stroke || bare) && event.cancelable) event.preventDefault();
  }, { passive: false });
  root.addEventListener("click", (event) => {
    if (performance.now() - drewAt > CLICK || !(event.target instanceof Element)) return;
    const own = event.target.closest("button:not(.target, .disc)");
    if (!own || palms.size || (event instanceof PointerEvent && event.pointerType === "touch" && performance.now() - penAt < PALM_AFTER)) keepAway(event);
  }, { capture: true });
}
