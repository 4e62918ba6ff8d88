/** One rule set: read, changed, saved and checked, with the court beside the words. */

import { Asked, ask } from "./team-api.js";
import { boardButton } from "./tell-board.js";
import { checkPart } from "./rules-check.js";
import { anchor, button, icon, line, make } from "../ui/dom.js";
import { Edited } from "./edit.js";
import { problemList, sentenceOf, toProblems } from "./frame.js";
import { installedPart } from "./installed.js";
import { movesPart } from "./moves.js";
import { sayTeam } from "../words/team-words.js";
import { copyRules } from "./rules-list.js";
import { SaveBar } from "./save-bar.js";
import { stagesPart } from "./stages.js";
import { Watch } from "./watch.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./frame.js").TeamView} TeamView
 * @typedef {import("./team-api.js").RulesAnswer} RulesAnswer
 * @typedef {import("./team-api.js").RulesData} RulesData
 * @typedef {import("./team-api.js").Problem} Problem
 * @typedef {"moves" | "installed" | "stages" | "check"} Part
 */

/** @type {Record<Part, (page: RulesPage) => HTMLElement[]>} */
const PARTS = { moves: movesPart, installed: installedPart, stages: stagesPart, check: checkPart };
const NAMES = /** @type {Part[]} */ (Object.keys(PARTS));

export class RulesPage {
  /** @param {PageContext} context @param {RulesAnswer} answer */
  constructor(context, answer) {
    this.context = context;
    this.ref = answer.ref;
    this.readOnly = answer.shipped;
    this.fixed = answer.data;
    /** @type {Edited<RulesData> | null} */
    this.draft = answer.shipped ? null : new Edited(answer.ref, answer.version, answer.data, () => this.#changed());
    /** @type {Problem[]} */
    this.problems = [];
    /** @type {Part} */
    this.part = "moves";
    this.played = playedOf(this.data);
    this.opened = "";
    this.seconds = "";
    this.playing = "";
    /** The line to go to once it is drawn. */
    this.leading = "";
    /** @type {import("./rules-check.js").CheckState} */
    this.checking = { squad: false, running: null, progress: [0, 0], report: null, of: null, said: "" };
    this.watch = new Watch(context, () => this.current, (error) => this.refuse(error));
    this.watch.onFloor = () => this.draw();

    this.title = make("h2");
    this.title.tabIndex = -1;
    this.about = make("p", "lead-in");
    this.naming = make("div", "naming");
    const use = boardButton(context.board, sayTeam("use_on_board"), () => (this.draft?.dirty ? sayTeam("save_first") : { rules: this.ref }), () => sayTeam("board_took", { name: this.data.title }));
    const acts = make("div", "acts", use.act);
    if (this.readOnly) acts.prepend(button("primary", sayTeam("copy_and_change"), () => copyRules(context, { ref: this.ref, title: this.data.title })));
    else acts.append(button("plain", sayTeam("rename"), () => this.#rename()));
    const head = make("header", "head", anchor("up", icon("back"), "#rules"), this.title, this.about, this.naming, acts, use.said);
    head.querySelector(".up")?.append(sayTeam("tabs.rules"));
    if (this.readOnly) head.append(make("p", "quiet", sayTeam("read_only")));
    this.parts = make("nav", "parts", ...NAMES.map((part) => anchor("", sayTeam(`parts.${part}`), `#rules/${this.ref}/${part}`)));
    this.parts.setAttribute("aria-label", sayTeam("parts_label"));
    this.troubles = make("div", "troubles");
    this.body = make("div", "body");
    this.bar = this.draft ? new SaveBar(this.draft, () => this.save()) : null;
    this.left = make("div", "left", this.watch.element);
    this.element = make("div", "desk", head, this.parts, this.left, this.troubles, this.body);
    if (this.bar) this.element.append(this.bar.element);
    this.draw();
    void this.watch.show({ trigger: "pass" });
    this.playing = "pass";
  }

  /** @returns {RulesData} */
  get data() {
    return this.draft?.now ?? this.fixed;
  }

  /** What to ask the server about: the saved set, or the data as changed. */
  get current() {
    return this.draft?.dirty ? this.draft.now : this.ref;
  }

  /** @param {string[]} parts  after the reference */
  turn([part = "moves"]) {
    const next = NAMES.find((name) => name === part) ?? "moves";
    const other = next !== this.part;
    this.part = next;
    this.draw();
    const place = document.getElementById(`rule-${this.leading}`) ?? document.getElementById(`on-${this.leading.split(".")[0]}`);
    this.leading = "";
    if (place) {
      place.scrollIntoView({ block: "center" });
      (place instanceof HTMLButtonElement ? place : place.querySelector("button"))?.focus({ preventScroll: true });
    } else if (other) this.#toTop();
  }

  /** Draw the part that is on show again, whoever has the keyboard keeping it. */
  draw() {
    const focus = document.activeElement instanceof HTMLElement && this.body.contains(document.activeElement) ? document.activeElement.dataset.focus : "";
    this.title.textContent = this.data.title;
    this.about.textContent = this.data.about;
    NAMES.forEach((name, i) => {
      const link = /** @type {HTMLElement} */ (this.parts.children[i]);
      if (name === this.part) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
    });
    this.element.dataset.part = this.part;
    if (this.part !== "check") this.left.append(this.watch.picks);
    this.body.replaceChildren(...PARTS[this.part](this));
    if (focus) /** @type {HTMLElement | null} */ (this.body.querySelector(`[data-focus="${focus}"]`))?.focus({ preventScroll: true });
    this.bar?.draw();
  }

  /** What is wrong at a place, "" for nothing. @param {string} place */
  problemAt(place) {
    return listed(this.problems.filter(([at]) => at === place || at.startsWith(`${place}.`)).map(([, sentence]) => sentence), "sentences");
  }

  /** Go to the line of a trigger and role, opened. @param {string} trigger @param {string} role */
  lead(trigger, role) {
    this.opened = role ? `${trigger}.${role}` : "";
    this.playing = trigger;
    this.leading = `${trigger}.${role}`;
    if (this.part === "moves") this.turn(["moves"]);
    else this.context.go(`#rules/${this.ref}/moves`);
  }

  /** The beginning of another part, where the one before was scrolled down. */
  #toTop() {
    const top = this.parts.offsetTop - (this.element.firstElementChild?.clientHeight ?? 0);
    if (this.parts.getBoundingClientRect().top < 80) window.scrollTo({ top: Math.max(0, top) });
  }

  async save() {
    const { draft } = this;
    if (!draft?.dirty) return;
    const data = draft.now;
    this.bar?.say("saving");
    try {
      /** @type {{version: number}} */
      const { version } = await ask("PUT", `rules/${this.ref}`, { version: draft.version, data });
      this.problems = [];
      this.troubles.replaceChildren();
      draft.wasSaved(version, data);
      await this.context.refresh();
    } catch (error) {
      this.bar?.say("not saved");
      if (error instanceof Asked && error.code === "newer") this.#stale();
      else if (error instanceof Asked && error.problems.length) {
        this.refuse(error);
        toProblems(this.troubles);
      } else this.context.complain(error);
    }
  }

  close() {
    this.checking.running?.abort();
    this.watch.close();
  }

  #changed() {
    this.problems = [];
    this.troubles.replaceChildren();
    this.draw();
    const played = playedOf(this.data);
    if (played !== this.played) this.watch.refresh();
    this.played = played;
  }

  #rename() {
    const title = line(sayTeam("title"), this.data.title, { most: 60 });
    const about = line(sayTeam("about"), this.data.about, { most: 400 });
    const shut = () => this.naming.replaceChildren();
    const form = make("form", "renaming", title.whole, about.whole, make("div", "acts", make("button", "plain", sayTeam("done")), button("plain", sayTeam("cancel"), shut)));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.draft?.edit((data) => {
        data.title = title.input.value.trim() || data.title;
        data.about = about.input.value.trim();
      });
      shut();
    });
    this.naming.replaceChildren(form);
    title.input.focus();
  }

  /** @param {Asked} error */
  refuse(error) {
    this.problems = error.problems;
    const box = problemList(error.problems, (place) => {
      const [kind, trigger, role] = place.split(".");
      if (kind === "responses" && trigger) this.lead(trigger, role ?? "");
      else if (kind === "stages") this.context.go(`#rules/${this.ref}/stages`);
      else if (kind === "title" || kind === "about") this.#rename();
      else this.context.go(`#rules/${this.ref}/installed`);
    });
    this.troubles.replaceChildren(box);
    this.draw();
  }

  #stale() {
    const mine = this.data;
    const copy = button("primary", sayTeam("stale_copy"), async () => {
      try {
        const title = sayTeam("copy_name", { name: mine.title });
        /** @type {{ref: string}} */
        const { ref } = await ask("POST", "rules", { from: this.ref, title });
        /** @type {RulesAnswer} */
        const made = await ask("GET", `rules/${ref}`);
        await ask("PUT", `rules/${ref}`, { version: made.version, data: { ...mine, name: made.data.name, title } });
        await this.#theirs();
        await this.context.refresh();
        this.context.go(`#rules/${ref}`);
      } catch (error) {
        this.context.complain(error);
      }
    });
    const theirs = button("plain", sayTeam("stale_theirs"), () => this.#theirs().catch((error) => this.context.toast(sentenceOf(error))));
    const box = make("div", "trouble", make("p", "", sayTeam("stale")), make("div", "acts", copy, theirs));
    box.setAttribute("role", "alert");
    this.troubles.replaceChildren(box);
    toProblems(this.troubles);
  }

  async #theirs() {
    /** @type {RulesAnswer} */
    const { version, data } = await ask("GET", `rules/${this.ref}`);
    this.draft?.restart(version, data);
  }
}

/** The part of a rule set that can be seen on the court. @param {RulesData} data */
function playedOf({ responses, actions, lane, posts }) {
  return JSON.stringify([responses, actions, lane, posts]);
}

/** @param {PageContext} context @param {string[]} parts @returns {Promise<TeamView>} */
export async function openRules(context, [ref, ...rest]) {
  /** @type {RulesAnswer} */
  const answer = await ask("GET", `rules/${encodeURIComponent(ref)}`);
  const page = new RulesPage(context, answer);
  page.turn(rest);
  return {
    element: page.element,
    title: answer.data.title,
    key: `rules/${ref}`,
    turn: (parts) => page.turn(parts.slice(1)),
    close: () => page.close(),
    unsaved: () => Boolean(page.draft?.dirty),
  };
}
