/** The row of tools under the court: what draws, in which colour, and the way back. */

import { COLOURS, TOOLS } from "./model.js";
import { sayInk, sayStrokes } from "../words/ink-words.js";

/**
 * @typedef {(typeof TOOLS)[number] | "rubber"} Tool
 * @typedef {object} Choices
 * @property {(tool: Tool) => void} tool
 * @property {(colour: number) => void} colour
 * @property {() => void} undo
 * @property {() => void} clear
 */

/** What each button shows, on 24 by 24. @type {Record<string, string>} */
const SIGNS = {
  pen: "M4.5 19.5l1-4.2L16 4.8a2 2 0 0 1 2.9 0l.3.3a2 2 0 0 1 0 2.9L8.700 18.500z M14 6.800l3.200 3.200",
  marker: "M5 20h14 M8 16.500l-2-2 9-10.500 5 4.200-9 10.300z M6 14.500l-1.500 3.500 3.500-1.500",
  cut: "M4 19C8 16 9 9 17.500 6.500 M11.500 4.800l7 1.400-4 5.700",
  pass: "M4 19l2.800-2.800M9.300 13.700l2.800-2.800M14.600 8.400l2.600-2.600 M11.500 5l7-.5-.5 7",
  dribble: "M3.500 19.500c1-4 3.500-1.500 4.500-4s-.5-4 2-5 3.500 1 4.500-1.500 1.500-2.500 2.500-3 M12.500 4.300l6.500.2-1.500 6",
  screen: "M4 19L16 7 M11.500 3.500l8.500 8.500",
  hand: "M3 12h18 M10 7v10 M14 7v10",
  rubber: "M8.500 19.500H20 M4.200 14.200l8.600-9a2 2 0 0 1 2.900 0l3.600 3.700a2 2 0 0 1 0 2.900l-7.300 7.700H8.500l-4.300-2.600a2 2 0 0 1 0-2.700z M9 9.300l6.300 6.300",
  undo: "M8.500 4.500L4 9l4.500 4.500 M4.500 9h9.300a5.200 5.200 0 0 1 0 10.400H9",
  clear: "M5 7h14 M9.500 7V4.500h5V7 M7 7l.8 12.500h8.400L17 7 M10.300 10.500v5.500M13.700 10.500v5.500",
};

export class InkPanel {
  /** @param {HTMLElement} footer  where the row goes, before everything else @param {Choices} on */
  constructor(footer, on) {
    this.root = document.createElement("div");
    this.root.className = "ink-tools";
    this.root.hidden = true;
    this.root.setAttribute("role", "toolbar");
    this.root.setAttribute("aria-label", sayInk("tools"));
    /** @type {Map<Tool, HTMLButtonElement>} */
    this.tools = new Map();
    for (const tool of [...TOOLS.slice(0, 2), /** @type {const} */ ("rubber"), ...TOOLS.slice(2)]) {
      this.tools.set(tool, this.#button(tool, sayInk(`names.${tool}`), () => on.tool(tool)));
    }
    this.colours = COLOURS.map((colour, i) => {
      const made = this.#button("", sayInk(`colours.${colour}`), () => on.colour(i));
      made.classList.add("pick", `pick-${colour}`);
      made.append(document.createElement("i"));
      return made;
    });
    this.undo = this.#button("undo", sayInk("undo"), on.undo);
    this.clear = this.#button("clear", sayInk("clear"), on.clear);
    this.undo.classList.add("apart");
    this.said = document.createElement("p");
    this.said.className = "unseen";
    this.said.setAttribute("role", "status");
    this.root.append(this.said);
    footer.prepend(this.root);
    // Left and right go along the row, as in any toolbar; the court's own keys rest meanwhile.
    this.root.addEventListener("keydown", (event) => {
      const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
      const all = [...this.root.querySelectorAll("button")].filter((button) => !button.disabled);
      const at = all.indexOf(/** @type {HTMLButtonElement} */ (document.activeElement));
      if (!step || at < 0) return;
      event.preventDefault();
      event.stopPropagation();
      all[(at + step + all.length) % all.length].focus();
    });
  }

  /** @param {string} sign @param {string} label @param {() => void} act */
  #button(sign, label, act) {
    const button = document.createElement("button");
    button.type = "button";
    button.setAttribute("aria-label", label);
    button.title = label;
    if (sign) {
      const ns = "http://www.w3.org/2000/svg";
      const image = document.createElementNS(ns, "svg");
      image.setAttribute("viewBox", "0 0 24 24");
      image.setAttribute("aria-hidden", "true");
      const path = document.createElementNS(ns, "path");
      path.setAttribute("d", SIGNS[sign]);
      image.append(path);
      button.append(image);
      button.dataset.ink = sign;
    }
    button.addEventListener("click", act);
    this.root.append(button);
    return button;
  }

  /** @param {{tool: Tool | null, colour: number, strokes: number, undo: boolean}} now */
  draw({ tool, colour, strokes, undo }) {
    for (const [each, button] of this.tools) button.setAttribute("aria-pressed", String(each === tool));
    this.colours.forEach((button, i) => button.setAttribute("aria-pressed", String(i === colour)));
    this.undo.disabled = !undo;
    this.clear.disabled = !strokes;
    const said = sayStrokes(strokes);
    if (this.said.textContent !== said) this.said.textContent = said;
  }
}
