/** The row of buttons under the court while it is drawn by hand, and the line above it that says what it comes to. */

import { svg } from "../court/court.js";
import { sayDrawn } from "../words/drawn-words.js";

/**
 * @typedef {object} Ways  what each button does
 * @property {() => void} undo
 * @property {() => void} redo
 * @property {() => void} setup
 * @property {() => void} draw
 * @property {() => void} together
 * @property {() => void} then
 * @property {() => void} play
 * @property {() => void} close
 * @property {() => void} done
 *
 * @typedef {object} BarNow
 * @property {"setup" | "draw"} mode
 * @property {boolean} then
 * @property {boolean} undo
 * @property {boolean} redo
 * @property {boolean} playing
 * @property {boolean} empty  nothing to play or to put in the chain
 * @property {string} title
 * @property {string} says
 * @property {boolean} fine  play goes on by rule
 */

/** @type {Record<string, string>} */
const SIGNS = {
  undo: "M8.5 4.5 4 9l4.5 4.500M4.500 9h9.300a5.200 5.200 0 0 1 0 10.400H9",
  redo: "M15.500 4.500 20 9l-4.500 4.500M19.500 9h-9.300a5.200 5.200 0 0 0 0 10.400H15",
  play: "M7.500 4.500v15L19.500 12z",
  stop: "M7 7h10v10H7z",
};

/** @param {string} name */
const sign = (name) => svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, [
  svg("path", { d: SIGNS[name], class: name === "play" || name === "stop" ? "solid" : "" }),
]);

export class DrawnBar {
  /** @param {HTMLElement} page @param {Ways} on */
  constructor(page, on) {
    this.head = document.createElement("div");
    this.head.className = "hand-head";
    this.title = document.createElement("h2");
    this.says = document.createElement("p");
    this.says.setAttribute("role", "status");
    this.head.append(this.title, this.says);
    this.root = document.createElement("footer");
    this.root.className = "hand-bar";
    this.root.setAttribute("role", "toolbar");
    this.root.setAttribute("aria-label", sayDrawn("tools"));
    /** @type {Record<string, HTMLButtonElement>} */
    this.buttons = {};
    const button = (/** @type {keyof Ways} */ name) => {
      const made = document.createElement("button");
      made.type = "button";
      made.dataset.hand = name;
      if (SIGNS[name]) {
        made.append(sign(name));
        made.setAttribute("aria-label", sayDrawn(`${name}`));
        made.title = sayDrawn(`${name}`);
      } else made.textContent = sayDrawn(`${name}`);
      made.addEventListener("click", () => on[name]());
      this.buttons[name] = made;
      return made;
    };
    const group = (/** @type {string} */ label, /** @type {(keyof Ways)[]} */ names, kind = "hand-pair") => {
      const made = document.createElement("div");
      made.className = kind;
      if (label) {
        made.setAttribute("role", "group");
        made.setAttribute("aria-label", label);
      }
      made.append(...names.map(button));
      return made;
    };
    this.when = group(sayDrawn("when"), ["together", "then"], "hand-pair hand-when");
    this.root.append(
      group("", ["undo", "redo"], "hand-backs"), group(sayDrawn("mode"), ["setup", "draw"]), this.when,
      group("", ["play"], "hand-play"), group("", ["close", "done"], "hand-ends"),
    );
    page.append(this.head, this.root);
  }

  /** @param {BarNow} now */
  draw({ mode, then, undo, redo, playing, empty, title, says, fine }) {
    const { buttons } = this;
    const press = (/** @type {string} */ name, /** @type {boolean} */ on) => buttons[name].setAttribute("aria-pressed", String(on));
    press("setup", mode === "setup");
    press("draw", mode === "draw");
    press("together", !then);
    press("then", then);
    this.when.hidden = mode === "setup";
    buttons.undo.disabled = !undo;
    buttons.redo.disabled = !redo;
    buttons.then.disabled = empty;
    buttons.play.disabled = empty;
    const name = playing ? "stop" : "play";
    if (buttons.play.dataset.sign !== name) {
      buttons.play.dataset.sign = name;
      buttons.play.replaceChildren(sign(name));
      buttons.play.setAttribute("aria-label", sayDrawn(`${name}`));
    }
    if (this.title.textContent !== title) this.title.textContent = title;
    if (this.says.textContent !== says) this.says.textContent = says;
    this.head.classList.toggle("fine", fine);
  }
}
