/** One formation: its spots dragged on the court, its words beside it. Places and distances come from the server. */

import { Asked, ask } from "./team-api.js";
import { boardButton } from "./tell-board.js";
import { anchor, button, choice, icon, line, make, select, tick } from "../ui/dom.js";
import { Edited } from "./edit.js";
import { FormationCourt } from "./formation-court.js";
import { distancesPart, postsPart, ringPart, startPart } from "./formation-parts.js";
import { copyFormation, nameOf } from "./formations-list.js";
import { problemList, toProblems } from "./frame.js";
import { sayTeam } from "../words/team-words.js";
import { SaveBar } from "./save-bar.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./frame.js").TeamView} TeamView
 * @typedef {import("./team-api.js").FormationAnswer} FormationAnswer
 * @typedef {import("./team-api.js").FormationData} FormationData
 * @typedef {import("./team-api.js").Measured} Measured
 * @typedef {import("./team-api.js").Floor} Floor
 * @typedef {import("./team-api.js").Point} Point
 */

/** @type {Record<string, Floor>} */
const floors = {};

export class FormationPage {
  /** @param {PageContext} context @param {FormationAnswer} answer */
  constructor(context, answer) {
    this.context = context;
    this.ref = answer.ref;
    this.readOnly = answer.shipped;
    this.fixed = answer.data;
    /** @type {Edited<FormationData> | null} */
    this.draft = answer.shipped ? null : new Edited(answer.ref, answer.version, answer.data, () => void this.measure());
    /** @type {Measured} */
    this.measured = { data: answer.data, spots: answer.spots, distances: [], problems: [] };
    this.courtName = "fiba";
    /** A spot is moved together with the one on the other side. */
    this.paired = false;
    this.asked = 0;
    /** A place on the way is being asked about; `next` is where the finger has got to meanwhile. */
    this.waiting = false;
    /** @type {{spot: string, to: Point} | null} */
    this.next = null;
    this.court = new FormationCourt(context.words, this.readOnly, {
      drag: (spot, to) => void this.#drag(spot, to, false),
      drop: (spot, to) => void this.#drag(spot, to, true),
    });
    this.title = make("h2");
    this.naming = make("div", "naming");
    const use = boardButton(context.board, sayTeam("use_on_board"), () => (this.draft?.dirty ? sayTeam("save_first") : { formation: this.ref }), () => sayTeam("board_took", { name: this.name }));
    const acts = make("div", "acts", use.act);
    if (this.readOnly) acts.prepend(button("primary", sayTeam("copy_and_change"), () => copyFormation(context, { ref: this.ref, name: this.data.name, shipped: true })));
    else acts.append(button("plain", sayTeam("rename"), () => this.#rename()));
    const up = anchor("up", icon("back"), "#formations");
    up.append(sayTeam("tabs.formations"));
    const head = make("header", "head", up, this.title, this.naming, acts, use.said);
    if (this.readOnly) head.append(make("p", "quiet", sayTeam("formation_read_only")));
    this.troubles = make("div", "troubles");
    this.body = make("div", "body");
    const courts = Object.keys(context.words.table.courts).map((name) => /** @type {[string, string]} */ ([name, context.words.court(name)]));
    const picks = make("div", "picks", select(sayTeam("court"), courts, this.courtName, (name) => {
      this.courtName = name;
      void this.measure();
    }));
    if (!this.readOnly) {
      picks.prepend(choice(sayTeam("layer"), [["ring", sayTeam("layers.ring")], ["posts", sayTeam("layers.posts")]], "ring", (layer) => {
        this.court.layer = /** @type {"ring" | "posts"} */ (layer);
        this.court.draw();
      }, "choice row-of"));
      picks.append(tick(sayTeam("pairs"), this.paired, (on) => (this.paired = on)));
    }
    const watch = make("section", "watch", this.court.root);
    if (!this.readOnly) watch.append(make("p", "help", sayTeam("spot_help")));
    this.bar = this.draft ? new SaveBar(this.draft, () => this.save()) : null;
    this.element = make("div", "desk forming", head, make("div", "left", watch, picks), this.troubles, this.body);
    if (this.bar) this.element.append(this.bar.element);
    this.draw();
    void this.measure();
  }

  /** @returns {FormationData} */
  get data() {
    return this.draft?.now ?? this.fixed;
  }

  get name() {
    return nameOf(this.context, this.data.name);
  }

  /** Ask where everything is now, and show it. The latest question wins. */
  async measure() {
    const asked = ++this.asked;
    this.bar?.draw();
    try {
      const floor = await floorOf(this.context, this.courtName);
      /** @type {Measured} */
      const measured = await ask("POST", "formations/measure", { data: this.data, court: this.courtName });
      if (asked !== this.asked) return;
      this.measured = measured;
      this.court.held = null;
      this.court.show(floor, this.data, measured.spots, measured.distances);
      this.draw();
    } catch (error) {
      if (asked !== this.asked) return;
      this.court.release();
      if (error instanceof Asked && error.problems.length) {
        this.measured = { ...this.measured, problems: error.problems };
        this.draw();
      } else this.context.complain(error);
    }
  }

  /** @param {string} spot @param {Point} to @param {boolean} done  let go: keep it */
  async #drag(spot, to, done) {
    if (!done && this.waiting) {
      this.next = { spot, to };
      return;
    }
    const asked = ++this.asked;
    this.next = null;
    this.waiting = true;
    try {
      const drag = { spot, x: to[0], y: to[1], pair: this.paired };
      /** @type {Measured} */
      const measured = await ask("POST", "formations/measure", { data: this.data, court: this.courtName, drag });
      if (done) {
        this.court.held = null;
        if (this.draft) this.draft.put({ ...this.data, ...measured.data });
        if (asked === this.asked) this.court.release();
      } else if (asked === this.asked) this.court.follow(measured.spots, measured.distances);
    } catch (error) {
      this.court.release();
      if (done) this.context.complain(error);
    } finally {
      this.waiting = false;
      this.#goOn(done);
    }
  }

  /** @param {boolean} done */
  #goOn(done) {
    if (this.next && !done) void this.#drag(this.next.spot, this.next.to, false);
  }

  draw() {
    const focus = document.activeElement instanceof HTMLElement && this.body.contains(document.activeElement) ? document.activeElement.dataset.focus : "";
    this.title.textContent = this.name;
    const elsewhere = this.measured.problems.filter(([place]) => !this.#hasPlace(place));
    this.troubles.replaceChildren(...(elsewhere.length ? [problemList(elsewhere)] : []));
    this.body.replaceChildren(distancesPart(this), ringPart(this), startPart(this), postsPart(this));
    if (focus) /** @type {HTMLElement | null} */ (this.body.querySelector(`[data-focus="${focus}"]`))?.focus({ preventScroll: true });
    this.bar?.draw();
  }

  /** Whether the words have a line of their own for a place. @param {string} place */
  #hasPlace(place) {
    const [kind, what] = place.split(".");
    if (kind === "ring") return !what || this.data.ring.some((item) => item.spot === what);
    if (kind === "start") return !what || what in this.data.start || Object.values(this.data.start).includes(what);
    return kind === "ball" || kind === "posts";
  }

  async save() {
    const { draft } = this;
    if (!draft?.dirty) return;
    const data = draft.now;
    this.bar?.say("saving");
    try {
      /** @type {{version: number}} */
      const { version } = await ask("PUT", `formations/${this.ref}`, { version: draft.version, data });
      this.troubles.replaceChildren();
      draft.wasSaved(version, data);
      await this.context.refresh();
    } catch (error) {
      this.bar?.say("not saved");
      if (error instanceof Asked && error.code === "newer") this.#stale();
      else if (error instanceof Asked && error.problems.length) {
        this.measured = { ...this.measured, problems: error.problems };
        this.draw();
        this.troubles.replaceChildren(problemList(error.problems));
        toProblems(this.troubles);
      } else this.context.complain(error);
    }
  }

  close() {
    this.court.close();
  }

  #rename() {
    const name = line(sayTeam("formation_name"), this.data.name, { most: 40 });
    const shut = () => this.naming.replaceChildren();
    const form = make("form", "renaming", name.whole, make("div", "acts", make("button", "plain", sayTeam("done")), button("plain", sayTeam("cancel"), shut)));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.draft?.edit((data) => (data.name = name.input.value.trim() || data.name));
      shut();
    });
    this.naming.replaceChildren(form);
    name.input.focus();
  }

  #stale() {
    const mine = this.data;
    const copy = button("primary", sayTeam("stale_copy"), async () => {
      try {
        const name = sayTeam("copy_name", { name: mine.name });
        /** @type {{ref: string}} */
        const { ref } = await ask("POST", "formations", { from: this.ref, name });
        /** @type {FormationAnswer} */
        const made = await ask("GET", `formations/${ref}?court=${this.courtName}`);
        await ask("PUT", `formations/${ref}`, { version: made.version, data: { ...mine, name } });
        await this.#theirs();
        await this.context.refresh();
        this.context.go(`#formations/${ref}`);
      } catch (error) {
        this.context.complain(error);
      }
    });
    const theirs = button("plain", sayTeam("stale_theirs"), () => this.#theirs().catch((error) => this.context.complain(error)));
    const box = make("div", "trouble", make("p", "", sayTeam("stale")), make("div", "acts", copy, theirs));
    box.setAttribute("role", "alert");
    this.troubles.replaceChildren(box);
    toProblems(this.troubles);
  }

  async #theirs() {
    /** @type {FormationAnswer} */
    const { version, data } = await ask("GET", `formations/${this.ref}?court=${this.courtName}`);
    this.draft?.restart(version, data);
  }
}

/** The markings of a court; they are the same for every formation. @param {PageContext} context @param {string} court */
async function floorOf({ team }, court) {
  const rules = team.rules.find((row) => row.shipped)?.ref;
  const formation = team.formations.find((row) => row.shipped)?.ref;
  floors[court] ??= (await ask("POST", "rules/preview", { rules, formation, court, trigger: "pass" })).floor;
  return floors[court];
}

/** @param {PageContext} context @param {string[]} parts @returns {Promise<TeamView>} */
export async function openFormation(context, [ref]) {
  /** @type {FormationAnswer} */
  const answer = await ask("GET", `formations/${encodeURIComponent(ref)}?court=fiba`);
  const page = new FormationPage(context, answer);
  return {
    element: page.element,
    title: page.name,
    key: `formations/${ref}`,
    close: () => page.close(),
    unsaved: () => Boolean(page.draft?.dirty),
  };
}
