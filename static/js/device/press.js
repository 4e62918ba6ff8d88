/**
 * Buttons while more than one finger is on the glass: a browser makes no click of a tap while another finger or a
 * palm rests somewhere, so that the tap would be lost. The click is made here then, and only then.
 */

/** A finger that moves more than this, CSS pixels, does not press. */
const SLOP = 28;
/** A click of the browser's own this soon after ours, milliseconds, is the same press. */
const SAME = 500;

/** @typedef {{button: HTMLButtonElement, x: number, y: number, alone: boolean}} Press */

/** @param {HTMLElement} root  whose buttons are meant, but for those of dialogs */
export function listenPresses(root) {
  /** Fingers on the glass. @type {Map<number, Press | null>} */
  const down = new Map();
  /** What each of them is. @type {Map<number, string>} */
  const kinds = new Map();
  let made = { button: /** @type {Element | null} */ (null), when: -1e4, id: -1 };
  let making = false;

  const begin = (/** @type {PointerEvent} */ event) => {
    if (event.pointerType !== "touch" && event.pointerType !== "pen") return;
    // A first finger is only first while no other is there: what is still noted has been lost.
    if (event.isPrimary) for (const id of down.keys()) if (kinds.get(id) === event.pointerType) forget(id);
    const found = event.target instanceof Element ? event.target.closest("button") : null;
    const button = found && !found.disabled && root.contains(found) && !found.closest("dialog, .targets, .actors") ? found : null;
    kinds.set(event.pointerId, event.pointerType);
    down.set(event.pointerId, button && { button, x: event.clientX, y: event.clientY, alone: true });
    if (down.size > 1) for (const press of down.values()) if (press) press.alone = false;
  };
  const forget = (/** @type {number} */ id) => {
    down.delete(id);
    kinds.delete(id);
  };
  const finish = (/** @type {PointerEvent} */ event) => {
    const press = down.get(event.pointerId);
    forget(event.pointerId);
    if (!press || press.alone || Math.hypot(event.clientX - press.x, event.clientY - press.y) > SLOP) return;
    made = { button: press.button, when: event.timeStamp, id: event.pointerId };
    making = true;
    press.button.click();
    making = false;
  };

  window.addEventListener("pointerdown", begin, true);
  window.addEventListener("pointerup", finish, true);
  window.addEventListener("pointercancel", (event) => forget(event.pointerId), true);
  window.addEventListener("click", (event) => {
    const same = !making && event.target instanceof Node && made.button?.contains(event.target);
    const own = !("pointerId" in event) || event.pointerId === made.id;
    if (!same || !own || event.timeStamp - made.when > SAME) return;
    made = { button: null, when: -1e4, id: -1 };
    event.stopImmediatePropagation();
    event.preventDefault();
  }, true);

  // Nor a menu of the system over what was held a moment too long.
  root.addEventListener("contextmenu", (event) => {
    const typed = event.target instanceof Element && event.target.closest("dialog, input, textarea");
    if (!typed && "pointerType" in event && event.pointerType !== "mouse") event.preventDefault();
  });
}
