/** The keyboard while the board is drawn by hand. All keys of the ordinary board rest meanwhile. */

/**
 * @typedef {object} Keys
 * @property {() => boolean} open
 * @property {() => string} focused  who has the keyboard, "" for nobody
 * @property {(who: string, dx: number, dy: number, shift: boolean) => void} arrow  right and down on the screen, -1 to 1
 * @property {(who: string) => void} keep  the way begun, or else what a tap on him does
 * @property {() => boolean} drop  it; false: there is none
 * @property {(who: string) => void} remove
 * @property {(digit: string) => void} pass  with the ball focused
 * @property {() => void} shoot
 * @property {() => void} undo
 * @property {() => void} redo
 * @property {() => void} play
 * @property {() => void} then
 * @property {() => void} mode
 * @property {() => void} close
 */

/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
/** Elements that want their own keys. */
const OWN = "input, textarea, select, dialog";

/** @param {Keys} on */
export function listenHandKeys(on) {
  window.addEventListener("keydown", (event) => {
    const target = event.target instanceof Element ? event.target : document.body;
    if (!on.open() || target.closest(OWN) || event.altKey || event.key === "Tab") return;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    const command = event.ctrlKey || event.metaKey;
    if (command && key !== "z" && key !== "y") return;
    event.stopImmediatePropagation();
    if (press(key, command, event.shiftKey, target)) event.preventDefault();
  }, { capture: true });

  /** @param {string} key @param {boolean} command @param {boolean} shift @param {Element} target */
  function press(key, command, shift, target) {
    const who = on.focused();
    const arrow = ARROWS[key];
    if (command) (key === "y" || shift ? on.redo : on.undo)();
    else if (who && arrow) on.arrow(who, ...arrow, shift);
    else if (arrow) return walk(target, arrow);
    else if (who && key === "Enter") on.keep(who);
    else if (who && (key === "Delete" || key === "Backspace")) on.remove(who);
    else if (who === "ball" && /^[0-9]$/.test(key)) on.pass(key);
    else if (who === "ball" && key === "s") on.shoot();
    else if (key === "Escape") on.drop() || on.close();
    else if (key === "h") on.close();
    else if (key === "u") on.undo();
    else if (key === "t") on.then();
    else if (key === "m") on.mode();
    else if (key === " " && !target.closest("button:not(.grip)")) on.play();
    else return false;
    return true;
  }

  /** Along a row or a list of buttons. @param {Element} target @param {[number, number]} arrow */
  function walk(target, [dx, dy]) {
    const group = target.closest(".hand-bar, .hand-panel");
    if (!group) return false;
    const all = [...group.querySelectorAll("button")].filter((button) => !button.disabled && button.offsetParent);
    const at = all.indexOf(/** @type {HTMLButtonElement} */ (target));
    if (at < 0) return false;
    all[(at + dx + dy + all.length) % all.length].focus();
    return true;
  }
}
