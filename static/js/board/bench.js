/** Substitutions: the bench along the court's edge; one tap on who comes in, one on who goes out, in any order. */

import { sayBoard } from "../words/board-words.js";
import { sayPlayer } from "../words/general-words.js";

/**
 * @typedef {import("../state/wire.js").Member} Member
 * @typedef {import("../state/roster.js").Roster} Roster
 */

export class Bench {
  /**
   * @param {HTMLElement} root  an empty element at the court's edge
   * @param {(place: number, coming: Member) => void} swap
   * @param {() => void} changed
   */
  constructor(root, swap, changed) {
    this.root = root;
    this.swap = swap;
    this.changed = changed;
    this.open = false;
    /** @type {Member | null} */
    this.coming = null;
    /** @type {number | null} */
    this.going = null;
    this.drawn = "";
    root.setAttribute("aria-label", sayBoard("bench"));
  }

  /** What tells one look of it from another. */
  get key() {
    return this.open ? `subs ${this.coming?.id} ${this.going}` : "";
  }

  toggle() {
    this.#become(!this.open, null, null);
  }

  close() {
    if (this.open) this.#become(false, null, null);
  }

  /** A tap on a player on the floor. @param {number} place */
  pickPlace(place) {
    if (this.coming) this.#swap(place, this.coming);
    else this.#become(true, null, this.going === place ? null : place);
  }

  /** @param {Member} member */
  #pickMember(member) {
    if (this.going !== null) this.#swap(this.going, member);
    else this.#become(true, this.coming?.id === member.id ? null : member, null);
  }

  /** @param {number} place @param {Member} coming */
  #swap(place, coming) {
    this.#become(false, null, null);
    this.swap(place, coming);
  }

  /** @param {boolean} open @param {Member | null} coming @param {number | null} going */
  #become(open, coming, going) {
    [this.open, this.coming, this.going] = [open, coming, going];
    this.changed();
  }

  /** @param {Member[]} members @param {boolean} named */
  draw(members, named) {
    if (!members.length) this.open = false;
    this.root.toggleAttribute("hidden", !this.open);
    const key = this.open ? JSON.stringify([members, named, this.coming?.id]) : "";
    if (key === this.drawn) return;
    this.drawn = key;
    const focused = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.member : "";
    this.root.replaceChildren(...(this.open ? members.map((member) => this.#disc(member, named)) : []));
    const same = focused && this.root.querySelector(`[data-member="${CSS.escape(focused)}"]`);
    if (same instanceof HTMLElement) same.focus();
  }

  /** @param {Member} member @param {boolean} named */
  #disc(member, named) {
    const button = Object.assign(document.createElement("button"), { type: "button", className: "sub" });
    button.dataset.member = member.id;
    const face = Object.assign(document.createElement("span"), { className: "face" });
    face.append(Object.assign(document.createElement("b"), { className: "digits", textContent: member.number }));
    face.classList.toggle("two", member.number.length > 1);
    const name = Object.assign(document.createElement("span"), { className: "name", textContent: named ? member.name : "" });
    button.append(face, name);
    button.setAttribute("aria-label", sayBoard("comes_in", { who: sayPlayer(member) }));
    button.setAttribute("aria-pressed", String(this.coming?.id === member.id));
    button.addEventListener("click", () => this.#pickMember(member));
    return button;
  }
}
