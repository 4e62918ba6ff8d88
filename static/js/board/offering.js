/** What is on offer, shown twice: as targets on the court and, complete, as words in the list beside it. */

import { dressActors } from "../court/actors.js";
import { drawList } from "./action-list.js";
import { sayBoard, sayMore } from "../words/board-words.js";
import { positionKey } from "../state/state.js";
import { leftOut, passes, targets } from "../court/targets.js";
import { justDone } from "./just-now.js";
import { sentenceOf, tellingOf } from "./step-sentences.js";
import { sayGeneral, sayPlaced } from "../words/general-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("../state/wire.js").Offer} Offer
 * @typedef {import("../state/wire.js").StepWire} StepWire
 * @typedef {import("../state/wire.js").Standing} Standing
 * @typedef {import("../state/wire.js").Floor} Floor
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../words/speaker.js").Words} Words
 * @typedef {import("../court/court-view.js").CourtView} CourtView
 *
 * @typedef {object} Moment  what is being looked at
 * @property {Standing} standing
 * @property {() => Record<number, Point>} places  where everybody comes to rest, centimetres
 * @property {Floor} floor
 * @property {import("../state/state.js").Menu | null} menu  null: not known (yet), or not wanted
 * @property {Aside | null} aside  something else is being done: nothing can be played
 * @property {boolean} replaying  the chain is being played
 * @property {boolean} paused  it was stopped while somebody was on his way
 * @property {StepWire | undefined} last  the step that led here
 * @property {boolean} isEnd  nothing stands after it in the chain
 * @property {string[] | null} next  what the chain goes on with from here, as far as that is known
 * @property {Words} words
 * @property {import("../state/roster.js").Roster} roster
 * @property {boolean} named  names stand under the discs
 * @property {{fresh: () => void, fromHere: () => void, toEnd: () => void}} ways
 *
 * @typedef {object} Aside
 * @property {string} key  tells one from another
 * @property {string[]} notes  in the list's place
 * @property {boolean} goesOn  what has just been done, and the ways on from an earlier step, are there as well
 * @property {(player: number) => string} doing  after who and where he is, "" for nothing
 * @property {(player: number) => boolean} can  a tap on him means something
 * @property {(player: number) => string} note  under his disc, "" for his name
 */

export class Offering {
  /**
   * @param {CourtView} court
   * @param {HTMLElement} list
   * @param {(offer: Offer) => void} choose
   */
  constructor(court, list, choose) {
    this.court = court;
    this.list = list;
    this.choose = choose;
    /** @type {Map<number, Offer>} the offer a mate's disc stands for */
    this.passing = new Map();
    this.drawn = "";
    /** What has no place on the court: the list alone has it. @type {Set<Offer>} */
    this.only = new Set();
    this.more = Object.assign(document.createElement("p"), { className: "more-in-list", hidden: true });
    court.root.append(this.more);
    /** @type {import("../state/state.js").Menu | null} */
    this.menu = null;
  }

  /** Draw anew next time, whatever was drawn. */
  forget() {
    this.drawn = "";
  }

  /** @param {Moment} moment */
  show(moment) {
    const { standing, menu, aside, replaying, paused, isEnd } = moment;
    const away = replaying || paused;
    const waits = !menu && !away && !aside && isEnd;
    this.court.root.classList.toggle("waiting", !menu && !away && !aside);
    this.list.classList.toggle("waiting", waits);
    this.list.classList.toggle("aside", Boolean(aside));
    const key = [positionKey(standing), moment.next, menu?.offers.length, away && moment.last?.a, paused, isEnd, aside?.key].join("#");
    // While the next offers are on their way the old ones stay, faded.
    if ((key === this.drawn && menu === this.menu) || (waits && this.drawn)) return;
    const elsewhere = key !== this.drawn;
    this.drawn = key;
    this.menu = menu;
    this.#drawCourt(moment);
    this.#drawList(moment);
    // What can happen next begins at the top, unless the keyboard is somewhere in it.
    if (elsewhere && !this.list.querySelector(":focus-visible")) this.list.parentElement?.scrollTo(0, 0);
  }

  /** @param {Moment} moment */
  #drawCourt({ standing, menu, aside, places, floor, words, roster, named, next }) {
    const { court } = this;
    const { projection } = court;
    if (!projection) return;
    const offers = aside || !menu ? [] : menu.offers;
    const passing = passes(offers, standing);
    this.passing = passing;
    const there = targets(offers, standing, places(), floor, projection, named);
    const isNext = nextOf(offers, next);
    court.offer(there, (offer) => sentenceOf(offer, words), roster.face, isNext);
    this.only = new Set(leftOut(offers, standing, there));
    this.more.hidden = !this.only.size;
    this.more.textContent = this.only.size ? sayMore(this.only.size) : "";
    dressActors(court.actors, {
      cutter: standing.cutter,
      roster,
      note: aside?.note,
      next: (player) => isNext(passing.get(player) ?? null),
      tappable: (player) => passing.has(player) || Boolean(aside?.can(player)),
      label(player) {
        const offer = passing.get(player);
        if (offer) return sentenceOf(offer, words);
        const has = player === standing.ball ? sayBoard("has_ball") : player === standing.cutter ? sayBoard("in_lane") : "";
        const where = aside?.note(player) || (standing.off ? "" : words.at(standing.at[player]));
        return listed([sayPlaced(words.player(player), where), has, aside?.doing(player) ?? ""].filter(Boolean), "comma");
      },
    });
  }

  /** @param {Moment} moment */
  #drawList({ standing, menu, aside, replaying, paused, last, isEnd, next, words, ways }) {
    const { list } = this;
    const on = [way(sayBoard("from_here"), ways.fromHere), way(sayBoard("to_end"), ways.toEnd)];
    if (aside) list.replaceChildren(...(aside.goesOn && !isEnd ? [earlier(last, on)] : []), ...aside.notes.map(note), ...(aside.goesOn ? tellingOf(last, words, sayBoard("just_now")) : []));
    else if (replaying || paused) list.replaceChildren(...(paused ? [note(sayBoard("paused"))] : []), ...tellingOf(last, words));
    else if (standing.over) list.replaceChildren(...(last ? [brief(last, words)] : []), note(sayBoard("over")), note(sayBoard("over_hint")), way(sayBoard("fresh"), ways.fresh),
      ...tellingOf(last, words, sayBoard("just_now")));
    else if (menu && menu.offers.length + menu.withheld.length) {
      drawList(list, menu, words, this.choose, { isNext: nextOf(menu.offers, next), only: this.only });
      if (last) list.prepend(brief(last, words));
      if (!isEnd) list.prepend(earlier(last, [way(sayBoard("to_end"), ways.toEnd)]));
      list.append(...tellingOf(last, words, sayBoard("just_now")));
    } else if (isEnd) list.replaceChildren(note(sayGeneral("one_moment")));
    else list.replaceChildren(earlier(last, on));
  }
}

/** What everybody has just done in one small paragraph, where a screen is too small to say so on the floor. @param {StepWire} step @param {Words} words */
function brief(step, words) {
  return Object.assign(document.createElement("p"), { className: "brief", textContent: listed(justDone(step, words), "sentences") });
}

/**
 * Which offer the chain goes on with: the very one, or the cutter's choice it begins with.
 * @param {Offer[]} offers @param {string[] | null} next @returns {(offer: Offer | null) => boolean}
 */
function nextOf(offers, next) {
  const own = next && (offers.find(({ a }) => a.join() === next.join()) ?? offers.find(({ a }) => a.length === 1 && a[0] === next[0]));
  return (offer) => Boolean(own) && offer === own;
}

/**
 * Where one is, and the ways on from there.
 * @param {import("../state/wire.js").StepWire | undefined} last  the step before, none at the start
 * @param {HTMLElement[]} ways
 */
function earlier(last, ways) {
  const made = Object.assign(document.createElement("div"), { className: "earlier" });
  made.append(note(sayBoard(last ? "earlier" : "at_start")), ...ways);
  return made;
}

/** @param {string} sentence */
function note(sentence) {
  return Object.assign(document.createElement("p"), { textContent: sentence });
}

/** @param {string} text @param {() => void} go */
function way(text, go) {
  const button = Object.assign(document.createElement("button"), { type: "button", className: "choice", textContent: text });
  button.addEventListener("click", go);
  return button;
}
