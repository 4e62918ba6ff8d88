/**
 * Fingers on the court: a tap on a target or a disc; a drag from a player in the direction of a move; and a
 * player carried away from his spot, by a long press first or by a drag in no move's direction.
 * A cancelled touch does nothing; a second finger is not listened to.
 */

import { DRAG, pick } from "./aim.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").Offer} Offer
 * @typedef {import("./aim.js").Aim} Aim
 *
 * @typedef {object} Court
 * @property {() => Aim[]} aims
 * @property {(offer: Offer) => void} choose
 * @property {(element: Element) => boolean} tap  whether it means something
 * @property {(from: Point | null, to?: Point, chosen?: Element | null) => void} show  the drag so far
 * @property {(player: number) => boolean} lift  whether this player may be carried off now
 * @property {(player: number, to: Point) => void} carry  CSS pixels
 * @property {(player: number, put: boolean) => void} drop  false: nothing has happened
 */

/** A finger that moves less than this, CSS pixels, taps. */
const SLOP = 14;
/** A finger that stays so long, milliseconds, takes hold of a player. */
const HOLD = 350;

/**
 * @typedef {object} Touch
 * @property {number} id
 * @property {Point} start
 * @property {Element} element
 * @property {Element | undefined} beneath  the target that a player stands over, or runs over just now
 * @property {number} player  0: on a target
 * @property {Point} origin  middle of the element
 * @property {"tap" | "aim" | "held" | "carry"} does
 * @property {boolean} aimed  it has pointed along a move
 * @property {number} timer
 */

/**
 * @param {HTMLElement} root
 * @param {Court} court
 */
export function listen(root, court) {
  /** @type {Touch | null} */
  let touch = null;
  let handled = 0;

  const point = (/** @type {MouseEvent} */ event) => {
    const box = root.getBoundingClientRect();
    return /** @type {Point} */ ([event.clientX - box.left, event.clientY - box.top]);
  };

  /** @param {Touch} ended @param {boolean} put */
  const end = (ended, put) => {
    clearTimeout(ended.timer);
    ended.element.classList.remove("pressed", "lifted");
    touch = null;
    court.show(null);
    if (ended.does === "carry") court.drop(ended.player, put);
  };

  /** @param {Touch} held */
  const lift = (held) => {
    if (touch !== held || !court.lift(held.player)) return;
    held.does = "held";
    held.element.classList.add("lifted");
  };

  root.addEventListener("pointerdown", (event) => {
    if (touch && !event.isPrimary) return;
    if (touch) end(touch, false); // its end was lost on the way: a new first finger is a new beginning
    if (!(event.target instanceof Element) || event.button > 0) return;
    const element = event.target.closest(".target, .disc");
    if (!element) return;
    const player = Number(element instanceof HTMLElement ? element.dataset.player : 0) || 0;
    const box = element.getBoundingClientRect();
    const home = root.getBoundingClientRect();
    const origin = /** @type {Point} */ ([box.left + box.width / 2 - home.left, box.top + box.height / 2 - home.top]);
    /** @type {Touch} */
    const begun = { id: event.pointerId, start: point(event), element, beneath: beneath(event, player), player, origin, does: "tap", aimed: false, timer: 0 };
    if (player) begun.timer = window.setTimeout(lift, HOLD, begun);
    touch = begun;
    element.classList.add("pressed");
  });

  window.addEventListener("pointermove", (event) => {
    if (!touch || event.pointerId !== touch.id) return;
    // A pencil or a mouse that hovers has been lifted, and nobody told us.
    if (!event.buttons) return end(touch, false);
    if (!touch.player) return;
    const now = point(event);
    const { start, origin, player } = touch;
    const moved = Math.hypot(now[0] - start[0], now[1] - start[1]);
    if (moved > SLOP && touch.does === "tap") {
      clearTimeout(touch.timer);
      touch.does = "aim";
    }
    if (touch.does === "aim") {
      const aim = pick(court.aims(), player, origin, now);
      touch.aimed ||= aim !== null;
      const far = Math.min(moved, Math.hypot(now[0] - origin[0], now[1] - origin[1])) > DRAG;
      if (far && !touch.aimed) lift(touch);
      if (touch.does === "aim") court.show(origin, aim ? aim.at : now, aim?.element);
      else court.show(null);
    }
    if (touch.does === "held" && moved > SLOP) touch.does = "carry";
    if (touch.does === "carry") court.carry(player, [origin[0] + now[0] - start[0], origin[1] + now[1] - start[1]]);
  });

  window.addEventListener("pointerup", (event) => {
    if (!touch || event.pointerId !== touch.id) return;
    const { element, beneath, player, origin, start, does } = touch;
    const now = point(event);
    end(touch, true);
    handled = event.timeStamp;
    const aim = does === "aim" ? pick(court.aims(), player, origin, now) : null;
    // A finger that has slipped a little and points at nothing has tapped.
    if (aim) court.choose(aim.offer);
    else if (does !== "carry" && Math.hypot(now[0] - start[0], now[1] - start[1]) <= SLOP * 2) {
      // Who has been taken hold of is put down where he was.
      if (!court.tap(element) && beneath && does !== "held") court.tap(beneath);
    }
  });

  window.addEventListener("pointercancel", (event) => {
    if (touch && event.pointerId === touch.id) end(touch, false);
  });

  // Somebody rings, the screen goes dark or is turned: the end of the touch may never be told.
  const lost = () => touch && end(touch, false);
  window.addEventListener("resize", lost);
  window.addEventListener("blur", lost);
  window.addEventListener("pagehide", lost);
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && lost());

  // All of the touch is ours: nothing of it is left over to swallow the next tap.
  const ours = (/** @type {Event} */ event) => event.target instanceof Element && event.target.closest(".target, .disc");
  root.addEventListener("touchstart", (event) => ours(event) && event.cancelable && event.preventDefault(), { passive: false });

  // A long press is ours: no menu of the system over the court.
  root.addEventListener("contextmenu", (event) => event.preventDefault());

  // A tap leaves the keyboard where it was, so that Enter still means the default choice.
  root.addEventListener("mousedown", (event) => {
    if (ours(event)) event.preventDefault();
  });

  // Keys and screen readers click without touching; a click that follows a touch has been dealt with.
  root.addEventListener("click", (event) => {
    if (event.timeStamp - handled < 400 || !(event.target instanceof Element)) return;
    const element = event.target.closest(".target, .disc");
    if (element) court.tap(element);
  });
}

/** Where a player with whom nothing can be done runs over a target, the finger means the target. @param {PointerEvent} event @param {number} player */
function beneath({ clientX, clientY }, player) {
  const all = player ? document.elementsFromPoint(clientX, clientY) : [];
  return all.map((each) => each.closest(".target")).find((each) => each !== null) ?? undefined;
}
