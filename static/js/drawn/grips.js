/** A handle over everybody on the floor, and over the ball: what keys and screen readers take hold of. */

/** @typedef {import("../state/wire.js").Point} Point */

export class Grips {
  /** @param {HTMLElement} court */
  constructor(court) {
    this.root = document.createElement("div");
    this.root.className = "grips";
    this.root.setAttribute("role", "group");
    /** @type {Map<string, HTMLButtonElement>} */
    this.all = new Map();
    court.append(this.root);
  }

  /**
   * @param {[string, Point, string][]} who  what it is, where it is in CSS pixels, what it is called
   * @param {string} chosen  "" for nobody
   * @param {string} pressed
   * @param {string} group  what they are together, and what keys do
   */
  draw(who, chosen, pressed, group) {
    if (this.root.getAttribute("aria-label") !== group) this.root.setAttribute("aria-label", group);
    for (const [key, grip] of this.all) {
      if (who.some(([each]) => each === key)) continue;
      grip.remove();
      this.all.delete(key);
    }
    for (const [key, [x, y], label] of who) {
      const grip = this.all.get(key) ?? this.#make(key);
      if (grip.getAttribute("aria-label") !== label) grip.setAttribute("aria-label", label);
      grip.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
      grip.classList.toggle("chosen", key === chosen);
      grip.classList.toggle("pressed", key === pressed);
    }
  }

  /** @param {string} key */
  #make(key) {
    const grip = document.createElement("button");
    grip.type = "button";
    grip.className = `grip grip-${key === "ball" || key === "bend" ? key : key[0].replace(/\d/, "player")}`;
    grip.dataset.who = key;
    this.all.set(key, grip);
    this.root.append(grip);
    return grip;
  }

  /** Who has the keyboard, "" for nobody. */
  get focused() {
    const grip = document.activeElement;
    return grip instanceof HTMLElement && grip.classList.contains("grip") ? String(grip.dataset.who) : "";
  }

  /** @param {string} who */
  focus(who) {
    this.all.get(who)?.focus();
  }
}
