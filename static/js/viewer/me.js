/** Who holds this phone and whose part it shows. It never changes part without saying so. */

import { changeOf, partOf, placeChoice, placeIn, settled, WATCHES } from "./part.js";
import { drawPicker, focusPicker } from "./picker.js";
import { rememberChoice, rememberedChoice } from "./memory.js";
import { el } from "./line-state.js";
import { sayBoard } from "../words/board-words.js";
import { sayViewer } from "../words/viewer-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("./part.js").People} People
 * @typedef {import("./part.js").Part} Part
 * @typedef {import("./part.js").Change} Change
 */

/** What the player's own sentence tells already. */
const IN_SENTENCE = new Set(["to_bench", "left_squad"]);

export class Me {
  /** @param {() => void} changed  somebody else's part is shown, or the picker has opened or closed */
  constructor(changed) {
    this.changed = changed;
    const { mine, follows } = rememberedChoice();
    /** @type {string | null} */
    this.mine = mine;
    /** @type {string | null} */
    this.follows = follows;
    /** @type {People} */
    this.people = { squad: {}, bench: [] };
    /** @type {number[]} */
    this.players = [];
    /** @type {Part | null} */
    this.part = null;
    /** @type {"" | "who" | "bench"} */
    this.page = "";
    /** @type {Change | null} */
    this.change = null;
    this.#listen();
  }

  /** Whose steps lead; null for nobody's. */
  get place() {
    return this.part?.place || null;
  }

  /** Whether the steps that lead are spoken of as the player's own. */
  get own() {
    return Boolean(this.place) && !this.part?.of;
  }

  get picking() {
    return this.page !== "";
  }

  /** Why no steps lead, "" where some do, nobody has chosen, or it stands over the choice already. */
  get missing() {
    const { part, mine } = this;
    if (this.place || this.page === "bench" || (part?.is !== "bench" && part?.is !== "unknown") || mine === null) return "";
    return this.#absent;
  }

  get #absent() {
    const n = this.mine ?? "";
    return this.part?.is === "bench" ? sayViewer("on_bench", { n }) : sayViewer("not_in_squad", { n });
  }

  /** Whose steps lead, where they are not those of the number that was chosen. */
  get whose() {
    const { part, mine } = this;
    if (!this.place || !part || mine === null || (part.is !== "bench" && part.is !== "unknown")) return "";
    return listed([this.#absent, part.of ? sayViewer("follows", { n: part.of }) : sayViewer("takes", { place: part.place })], "sentences");
  }

  /**
   * Take in who plays where now.
   * @param {People} people @param {number[]} players  the five positions
   */
  take(people, players) {
    [this.people, this.players] = [people, players];
    const mine = settled(this.mine, people);
    const now = partOf(mine, this.follows, people);
    // A position that was chosen while nobody had it may be somebody's when the page is opened again.
    const before = this.part ?? (now.is === "place" ? { ...now, by: "" } : now);
    const change = mine === null ? null : changeOf(before, now, mine);
    const first = this.part === null;
    this.part = now;
    if (change) {
      this.change = change;
      if (change.ask) this.page = change.key === "taken" || change.key === "left_squad" ? "who" : "bench";
      else if (this.page === "bench" && this.place) this.page = "";
    } else if (first && !this.place && now.is !== "watches") {
      this.page = now.is === "bench" ? "bench" : "who";
    }
    this.draw();
  }

  draw() {
    const { activeElement } = document;
    const inside = el("picker").contains(activeElement) || el("changed").contains(activeElement);
    this.#draw();
    // Whatever has the keyboard may be gone now: it goes to what is to be chosen, or to where all this opens.
    if (!inside || (activeElement?.isConnected && !activeElement.closest("[hidden]"))) return;
    if (this.page) focusPicker();
    else el("me").focus();
  }

  #draw() {
    const { mine, part, page, change } = this;
    const place = placeIn(settled(mine, this.people));
    const known = mine !== null && mine !== WATCHES;
    document.body.classList.toggle("picking", this.picking);
    el("me").textContent = !known ? "?" : place ? (part?.by ? sayBoard("position_short", { place }) : String(place)) : mine;
    el("me").setAttribute("aria-label", !known ? sayViewer("not_you") : place && part?.by ? sayViewer("you_place", { place }) : sayViewer("you", { n: place || mine }));
    el("me").setAttribute("aria-expanded", String(this.picking));
    el("me").classList.toggle("known", known);
    el("me").classList.toggle("off", part?.is === "bench" || part?.is === "unknown");
    const words = change && !IN_SENTENCE.has(change.key) ? sayViewer(`changes.${change.key}`, { n: change.n, place: change.place }) : "";
    if (el("changed_words").textContent !== words) el("changed_words").textContent = words;
    el("changed").hidden = !words;
    for (const id of ["changed_ok", "changed_choose"]) el(id).hidden = this.picking;
    if (page) drawPicker({ page, mine: settled(mine, this.people), follows: this.follows, people: this.people, players: this.players });
    el("picker").hidden = !page;
  }

  /** A tap on a disc while something is to be chosen. @param {number} place */
  tapDisc(place) {
    const choice = this.people.squad[place]?.number ?? placeChoice(place);
    if (this.page === "bench") this.#follow(choice);
    else if (this.page) this.#pick(choice);
  }

  /** @param {"" | "who" | "bench"} page */
  #turn(page) {
    this.page = page;
    this.draw();
    if (page) focusPicker();
    this.changed();
  }

  /** @param {string} choice */
  #pick(choice) {
    [this.mine, this.follows, this.change] = [choice, null, null];
    rememberChoice(choice, null);
    this.part = partOf(choice, null, this.people);
    this.#turn(this.place || choice === WATCHES ? "" : "bench");
  }

  /** @param {string} choice */
  #follow(choice) {
    [this.follows, this.change] = [choice, null];
    rememberChoice(this.mine, choice);
    this.part = partOf(this.mine, choice, this.people);
    this.#turn("");
  }

  #listen() {
    const on = (/** @type {string} */ id, /** @type {() => void} */ act) => el(id).addEventListener("click", act);
    on("me", () => {
      const off = this.part?.is === "bench";
      this.#turn(this.page ? "" : off ? "bench" : "who");
    });
    on("watch", () => this.#pick(WATCHES));
    on("other", () => this.#turn("who"));
    on("close", () => this.#turn(""));
    on("changed_choose", () => {
      this.change = null;
      this.#turn("who");
    });
    on("changed_ok", () => {
      this.change = null;
      this.#turn("");
    });
    for (const id of ["numbers", "places"]) {
      el(id).addEventListener("click", ({ target }) => {
        const choice = target instanceof Element ? target.closest("button")?.dataset.choice : undefined;
        if (choice === undefined) return;
        if (this.page === "bench") this.#follow(choice);
        else this.#pick(choice);
      });
    }
  }
}

