/**
 * The finger, pencil or mouse on the court while the board is drawn by hand: a tap on somebody, or a drag of him.
 * All of the court is taken from the ordinary gestures meanwhile. A cancelled touch does nothing; a second finger is
 * not listened to.
 */

/**
 * @typedef {import("../state/wire.js").Point} Point
 *
 * @typedef {object} Hands  places are CSS pixels of the court
 * @property {() => boolean} open
 * @property {(at: Point) => string | null} hit  who or what is there
 * @property {(who: string) => Point} middle  of him
 * @property {(who: string) => boolean} begin  a drag; false: he cannot be dragged now
 * @property {(to: Point[], finger: Point) => void} move  his way since the last call, and where the finger is
 * @property {(finger: Point) => void} drop
 * @property {() => void} cancel  as if he had never been touched
 * @property {(who: string | null) => void} tap  null: on the floor
 * @property {(who: string | null) => void} press  who is under the finger, null once it has gone
 */

/** A finger that moves less than this, CSS pixels, taps. */
const SLOP = 10;
/** What of the court stays what it is. */
const OWN = "button:not(.grip, .disc, .target), .toast, .bench";

/** @param {HTMLElement} root  the court @param {Hands} on */
export function listenHand(root, on) {
  /** @type {{id: number, who: string | null, start: Point, off: Point, does: "tap" | "drag" | "nothing"} | null} */
  let touch = null;
  let handled = -1e4;
  let box = root.getBoundingClientRect();

  const point = (/** @type {MouseEvent} */ event) => /** @type {Point} */ ([event.clientX - box.left, event.clientY - box.top]);
  const ours = (/** @type {Event} */ event) => on.open() && event.target instanceof Element && !event.target.closest(OWN);
  const keepAway = (/** @type {Event} */ event) => {
    event.stopImmediatePropagation();
    if (event.cancelable) event.preventDefault();
  };
  /** @param {boolean} isSaid  of a drag that has begun */
  const lost = (isSaid = true) => {
    if (!touch) return;
    const { does } = touch;
    touch = null;
    on.press(null);
    if (isSaid && does === "drag") on.cancel();
  };

  root.addEventListener("pointerdown", (event) => {
    if (!ours(event)) return;
    keepAway(event);
    if (touch && !event.isPrimary) return; // a second finger
    lost(); // the end of the one before was lost on the way
    if (event.button > 0) return;
    box = root.getBoundingClientRect();
    const start = point(event);
    const who = on.hit(start);
    const middle = who ? on.middle(who) : start;
    touch = { id: event.pointerId, who, start, off: [middle[0] - start[0], middle[1] - start[1]], does: "tap" };
    on.press(who);
    try {
      root.setPointerCapture(event.pointerId);
    } catch {
      // It has gone already; its end will be told all the same.
    }
  }, { capture: true });

  window.addEventListener("pointermove", (event) => {
    if (!touch || event.pointerId !== touch.id) return;
    if (!event.buttons) return lost(); // lifted unseen
    const { who, start, off } = touch;
    const now = point(event);
    if (touch.does === "tap" && Math.hypot(now[0] - start[0], now[1] - start[1]) > SLOP) {
      touch.does = who && on.begin(who) ? "drag" : "nothing";
    }
    if (touch.does !== "drag") return;
    const all = event.getCoalescedEvents?.() ?? [];
    on.move((all.length ? all : [event]).map(point).map(([x, y]) => [x + off[0], y + off[1]]), now);
  });

  window.addEventListener("pointerup", (event) => {
    if (!touch || event.pointerId !== touch.id) return;
    const { who, does } = touch;
    const now = point(event);
    handled = event.timeStamp;
    lost(false);
    if (does === "drag") on.drop(now);
    else if (does === "tap") on.tap(who);
  });
  window.addEventListener("pointercancel", (event) => {
    if (touch && event.pointerId === touch.id) lost();
  });

  // Somebody rings, the screen goes dark or is turned: the end of the touch may never be told.
  window.addEventListener("resize", () => lost());
  window.addEventListener("blur", () => lost());
  window.addEventListener("pagehide", () => lost());
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && lost());

  // All of the touch is ours: nothing scrolls, and nothing of it is left over to swallow the next tap.
  root.addEventListener("touchstart", (event) => ours(event) && event.cancelable && event.preventDefault(), { passive: false, capture: true });
  root.addEventListener("mousedown", (event) => ours(event) && event.preventDefault(), { capture: true });
  // Screen readers click without touching; a click that follows a touch has been dealt with.
  root.addEventListener("click", (event) => {
    if (!ours(event)) return;
    keepAway(event);
    const grip = event.target instanceof Element ? event.target.closest(".grip") : null;
    if (event.timeStamp - handled > 400 && grip instanceof HTMLElement) on.tap(String(grip.dataset.who));
  }, { capture: true });
}
