/**
 * Fingers on the court: a tap on a target or a disc, or a drag from a player in the direction of a move.
 * A cancelled touch does nothing; a second finger is not listened to.
 */

/**
 * @typedef {import("./wire.js").Point} Point
 * @typedef {import("./wire.js").Offer} Offer
 *
 * @typedef {object} Aim  something a drag can end at
 * @property {Offer} offer
 * @property {number} by  the player the drag begins at
 * @property {Point} at  CSS pixels
 * @property {Element} element
 *
 * @typedef {object} Court
 * @property {() => Aim[]} aims
 * @property {(offer: Offer) => void} choose
 * @property {(element: Element) => Offer | null} offerOf  what a tap on this element means
 * @property {(from: Point | null, to?: Point, chosen?: Element | null) => void} show  the drag so far
 */

/** A finger that moves less than this, CSS pixels, taps. */
const SLOP = 14;
/** A drag is at least this long to mean something, CSS pixels. */
const DRAG = 34;
/** A finger this near to the middle of something is on it, CSS pixels. */
const ON = 34;
/** How far from a move's direction a drag may point, degrees. */
const CONE = 32;

/**
 * @param {HTMLElement} root
 * @param {Court} court
 */
export function listen(root, court) {
  /** @type {{id: number, start: Point, element: Element | null, player: number, origin: Point, dragging: boolean} | null} */
  let touch = null;
  let handled = 0;

  const point = (/** @type {MouseEvent} */ event) => {
    const box = root.getBoundingClientRect();
    return /** @type {Point} */ ([event.clientX - box.left, event.clientY - box.top]);
  };

  const end = () => {
    touch = null;
    court.show(null);
  };

  const forgetTouch = () => {
    touch?.element?.classList.remove("pressed");
    end();
  };

  root.addEventListener("pointerdown", (event) => {
    if (touch && !event.isPrimary) return;
    if (touch) forgetTouch(); // its end was lost on the way: a new first finger is a new beginning
    if (!(event.target instanceof Element) || event.button > 0) return;
    const element = event.target.closest(".target, .disc");
    if (!element) return;
    const player = Number(element instanceof HTMLElement ? element.dataset.player : 0) || 0;
    const box = element.getBoundingClientRect();
    const home = root.getBoundingClientRect();
    const origin = /** @type {Point} */ ([box.left + box.width / 2 - home.left, box.top + box.height / 2 - home.top]);
    touch = { id: event.pointerId, start: point(event), element, player, origin, dragging: false };
    element.classList.add("pressed");
  });

  window.addEventListener("pointermove", (event) => {
    if (!touch || event.pointerId !== touch.id) return;
    const now = point(event);
    const moved = Math.hypot(now[0] - touch.start[0], now[1] - touch.start[1]);
    if (moved > SLOP && touch.player) touch.dragging = true;
    if (!touch.dragging) return;
    const aim = pick(court.aims(), touch.player, touch.origin, now);
    court.show(touch.origin, aim ? aim.at : now, aim?.element);
  });

  window.addEventListener("pointerup", (event) => {
    if (!touch || event.pointerId !== touch.id) return;
    const { element, player, origin, start, dragging } = touch;
    element?.classList.remove("pressed");
    const now = point(event);
    end();
    handled = event.timeStamp;
    if (dragging) {
      const aim = pick(court.aims(), player, origin, now);
      if (aim) court.choose(aim.offer);
    } else if (element && Math.hypot(now[0] - start[0], now[1] - start[1]) <= SLOP * 2) {
      const offer = court.offerOf(element);
      if (offer) court.choose(offer);
    }
  });

  window.addEventListener("pointercancel", (event) => {
    if (!touch || event.pointerId !== touch.id) return;
    forgetTouch();
  });

  // A tap leaves the keyboard where it was, so that Enter still means the default choice.
  root.addEventListener("mousedown", (event) => {
    if (event.target instanceof Element && event.target.closest(".target, .disc")) event.preventDefault();
  });

  // Keys and screen readers click without touching; a click that follows a touch has been dealt with.
  root.addEventListener("click", (event) => {
    if (event.timeStamp - handled < 400 || !(event.target instanceof Element)) return;
    const element = event.target.closest(".target, .disc");
    const offer = element && court.offerOf(element);
    if (offer) court.choose(offer);
  });
}

/**
 * What a drag from a player's disc means: the move under the finger, or the one it points along.
 * @param {Aim[]} aims
 * @param {number} player
 * @param {Point} origin
 * @param {Point} now
 * @returns {Aim | null}
 */
export function pick(aims, player, origin, now) {
  const drag = [now[0] - origin[0], now[1] - origin[1]];
  const length = Math.hypot(drag[0], drag[1]);
  if (length < DRAG) return null;
  let best = null;
  let least = Infinity;
  for (const aim of aims) {
    if (aim.by !== player) continue;
    const way = [aim.at[0] - origin[0], aim.at[1] - origin[1]];
    const reach = Math.hypot(way[0], way[1]) || 1;
    const turn = (Math.acos(Math.max(-1, Math.min(1, (way[0] * drag[0] + way[1] * drag[1]) / (reach * length)))) * 180) / Math.PI;
    const off = Math.hypot(now[0] - aim.at[0], now[1] - aim.at[1]);
    if (turn > CONE && off > ON) continue;
    const cost = off < ON ? off - 1000 : turn * 3 + Math.max(0, reach - length) * 0.5;
    if (cost < least) [least, best] = [cost, aim];
  }
  return best;
}
