/** What is on offer, shown twice: as targets on the court and, complete, as words in the list beside it. */

import { dressActors } from "./actors.js";
import { drawList } from "./list.js";
import { PHRASES } from "./phrases.js";
import { positionKey } from "./state.js";
import { passes, targets } from "./targets.js";
import { sentenceOf, tellingOf } from "./telling.js";

/**
 * @typedef {import("./wire.js").Offer} Offer
 * @typedef {import("./wire.js").StepWire} StepWire
 * @typedef {import("./wire.js").Standing} Standing
 * @typedef {import("./wire.js").Floor} Floor
 * @typedef {import("./wire.js").Point} Point
 * @typedef {import("./words.js").Words} Words
 * @typedef {import("./courtview.js").CourtView} CourtView
 *
 * @typedef {object} Moment  what is being looked at
 * @property {Standing} standing
 * @property {() => Record<number, Point>} places  where everybody comes to rest, centimetres
 * @property {Floor} floor
 * @property {Offer[] | null} offers  null: not known (yet), or not wanted
 * @property {boolean} replaying  the chain is being played
 * @property {StepWire | undefined} last  the step that led here
 * @property {boolean} isEnd  nothing stands after it in the chain
 * @property {Words} words
 * @property {Record<string, string> | null} names  to stand under the discs
 * @property {{fresh: () => void, fromHere: () => void, toEnd: () => void}} ways
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
  }

  /** Draw anew next time, whatever was drawn. */
  forget() {
    this.drawn = "";
  }

  /** @param {Moment} moment */
  show(moment) {
    const { standing, offers, replaying, isEnd } = moment;
    const waits = !offers && !replaying && isEnd;
    this.court.root.classList.toggle("waiting", !offers && !replaying);
    this.list.classList.toggle("waiting", waits);
    const key = [positionKey(standing), offers?.length, replaying && moment.last?.a, isEnd].join("#");
    // While the next offers are on their way the old ones stay, faded.
    if (key === this.drawn || (waits && this.drawn)) return;
    this.drawn = key;
    this.#drawCourt(moment, offers ?? []);
    this.#drawList(moment, offers ?? []);
  }

  /** @param {Moment} moment @param {Offer[]} offers */
  #drawCourt({ standing, places, floor, words, names }, offers) {
    const { court } = this;
    const { projection } = court;
    if (!projection) return;
    const passing = passes(offers, standing);
    this.passing = passing;
    court.offer(targets(offers, standing, places(), floor, projection, names !== null), (offer) => sentenceOf(offer, words));
    dressActors(court.actors, {
      cutter: standing.cutter,
      name: (player) => names?.[player] ?? "",
      tappable: (player) => passing.has(player),
      label(player) {
        const offer = passing.get(player);
        if (offer) return sentenceOf(offer, words);
        const doing = player === standing.ball ? PHRASES.hasBall : player === standing.cutter ? PHRASES.inLane : "";
        return [`${words.player(player)} ${words.at(standing.at[player])}`, doing].filter(Boolean).join(", ");
      },
    });
  }

  /** @param {Moment} moment @param {Offer[]} offers */
  #drawList({ standing, replaying, last, isEnd, words, ways }, offers) {
    const { list } = this;
    if (replaying) list.replaceChildren(...tellingOf(last, words));
    else if (standing.over) list.replaceChildren(note(PHRASES.over), note(PHRASES.overHint), way(PHRASES.fresh, ways.fresh));
    else if (offers.length) {
      drawList(list, offers, words, this.choose);
      list.append(...tellingOf(last, words, PHRASES.justNow));
    } else if (isEnd) list.replaceChildren(note(PHRASES.waiting));
    else list.replaceChildren(note(PHRASES.earlier), way(PHRASES.fromHere, ways.fromHere), way(PHRASES.toEnd, ways.toEnd));
  }
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
