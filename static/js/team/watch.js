/** The small court with its caption: asks the server for a chain and plays it. The latest question wins. */

import { Asked, ask } from "./team-api.js";
import { button, icon, make, select } from "../ui/dom.js";
import { sentenceOf } from "./frame.js";
import { sayTeam } from "../words/team-words.js";
import { choiceWords } from "./say.js";
import { SmallCourt } from "./small-court.js";
import { listed, parted, capital } from "../words/sayer.js";

/**
 * @typedef {import("./frame.js").PageContext} PageContext
 * @typedef {import("./team-api.js").ChainPreview} ChainPreview
 * @typedef {import("./team-api.js").RulesData} RulesData
 * @typedef {{trigger: string, role?: string} | {chain: string[]}} Shown
 */

const KEY = "quintet.team.floor";

export class Watch {
  /**
   * @param {PageContext} context
   * @param {() => RulesData | string} rules  a reference, or data that is not saved yet
   * @param {(error: Asked) => void} refused  the rules could not be read
   */
  constructor(context, rules, refused) {
    this.context = context;
    this.rules = rules;
    this.refused = refused;
    this.floor = this.#recall();
    this.court = new SmallCourt();
    this.caption = make("p", "caption", sayTeam("tap_rule"));
    this.caption.setAttribute("aria-live", "polite");
    this.replayButton = button("plain", sayTeam("from_start"), () => this.court.replay());
    this.replayButton.hidden = true;
    const again = button("round", icon("again"), () => this.court.again(), sayTeam("again1"));
    this.element = make("section", "watch", this.court.root, make("div", "saying", this.caption, again));
    this.element.setAttribute("aria-label", sayTeam("court"));
    this.picks = this.#picks();
    /** @type {Shown | null} */
    this.shown = null;
    /** @type {AbortController | null} */
    this.asking = null;
    /** Called when the formation or the court is another. */
    this.onFloor = () => {};
  }

  /** Play something. @param {Shown} what @param {string} [why]  what to say where the chain breaks off */
  async show(what, why = "") {
    this.shown = what;
    this.asking?.abort();
    const asking = (this.asking = new AbortController());
    const wait = window.setTimeout(() => this.caption.replaceChildren(make("span", "quiet", sayTeam("working"))), 250);
    try {
      const body = { rules: this.rules(), ...this.floor, ...what };
      /** @type {ChainPreview} */
      const preview = await ask("POST", "rules/preview", body, asking.signal);
      clearTimeout(wait);
      this.#say(preview, why);
    } catch (error) {
      clearTimeout(wait);
      if (asking.signal.aborted) return;
      this.caption.replaceChildren(make("span", "wrong", error instanceof Asked && error.problems.length ? sayTeam("no_preview") : sentenceOf(error)));
      if (error instanceof Asked && error.problems.length) this.refused(error);
    }
  }

  /** The same once more, with the rules as they are now. */
  refresh() {
    if (this.shown) void this.show(this.shown);
  }

  close() {
    this.asking?.abort();
    this.court.close();
  }

  /** @param {ChainPreview} preview @param {string} why */
  #say(preview, why) {
    const { words } = this.context;
    const { steps, last } = preview;
    const said = steps.map((step) => listed(step.say.map((phrase) => words.say("chain", phrase)), "comma"));
    const now = said.pop();
    /** @type {HTMLElement[]} */
    const sentences = [];
    const told = now && make("b", "", said.length ? now : capital(now));
    const sentence = said.length ? sayTeam("then_end", { steps: listed(said, "then"), now: "{now}" }) : sayTeam("now_end", { now: "{now}" });
    if (told) sentences.push(make("span", "", ...parted(sentence, { now: told }).map((part) => (part === told ? part : make("span", "before", part)))));
    // Those who have the role lead; where nobody is named, everybody is told of.
    const asked = this.shown && "role" in this.shown;
    for (const [player, key, given] of asked ? (steps[steps.length - 1]?.who ?? []) : []) {
      if (last.who && !last.who.includes(player)) continue;
      sentences.push(make("span", "does", words.say("who", [key, { p: player, ...given }])));
    }
    if (last.failed && last.a) sentences.push(make("span", "wrong", sayTeam("failed_here", { what: choiceWords(words, last.a ?? "") })), make("span", "", why));
    if (!steps.length && !last.a) {
      const row = this.context.team.formations.find((each) => each.ref === this.floor.formation);
      sentences.push(make("span", "", sayTeam("never", { formation: words.formation(row?.name ?? "") })));
    }
    this.caption.replaceChildren(...sentences.flatMap((each) => [each, " "]), this.replayButton);
    this.replayButton.hidden = steps.length < 2;
    this.court.show(preview, listed(sentences.map((each) => each.textContent ?? ""), "sentences"));
  }

  #picks() {
    const { team, words } = this.context;
    const formations = team.formations.map((row) => /** @type {[string, string]} */ ([row.ref, words.formation(row.name)]));
    const courts = Object.keys(words.table.courts).map((name) => /** @type {[string, string]} */ ([name, words.court(name)]));
    const take = (/** @type {Partial<typeof this.floor>} */ patch) => {
      this.floor = { ...this.floor, ...patch };
      try {
        localStorage.setItem(KEY, JSON.stringify(this.floor));
      } catch {
        // A private window keeps nothing; the choice holds until the page is left.
      }
      this.onFloor();
      this.refresh();
    };
    return make("div", "picks",
      select(sayTeam("formation"), formations, this.floor.formation, (formation) => take({ formation }), "formation"),
      select(sayTeam("court"), courts, this.floor.court, (court) => take({ court }), "court"),
    );
  }

  #recall() {
    const { formations } = this.context.team;
    let kept = { formation: "", court: "" };
    try {
      kept = JSON.parse(localStorage.getItem(KEY) ?? "null") ?? kept;
    } catch {
      // Nothing kept, or not ours.
    }
    const formation = formations.some((row) => row.ref === kept.formation) ? kept.formation : (formations[0]?.ref ?? "");
    return { formation, court: kept.court in this.context.words.table.courts ? kept.court : "fiba" };
  }
}
