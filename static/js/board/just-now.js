/** On the floor nobody uses: what everybody has just done, read without scrolling while the next choice is made. */

import { sentencesOf } from "./step-sentences.js";

/**
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").StepWire} StepWire
 */

/** The least room in which a line can be read, CSS pixels. */
const LEAST = 34;

export class JustNow {
  /** @param {HTMLElement} court */
  constructor(court) {
    this.court = court;
    this.root = Object.assign(document.createElement("ul"), { className: "just-now", hidden: true });
    court.append(this.root);
    this.drawn = "";
  }

  /**
   * @param {StepWire | undefined} step  that led here, where everybody stands
   * @param {import("../words/speaker.js").Words} words
   * @param {Record<number, Point>} places  where they stand, centimetres
   * @param {import("../court/projection.js").Projection} projection
   */
  draw(step, words, places, projection) {
    const room = step ? roomBehind(places, projection) : 0;
    const sentences = step && room >= LEAST ? justDone(step, words) : [];
    const key = JSON.stringify([sentences, Math.round(room)]);
    if (key === this.drawn) return;
    this.drawn = key;
    this.root.hidden = !sentences.length;
    this.root.style.maxHeight = `${room}px`;
    this.root.replaceChildren(...sentences.map((textContent) => Object.assign(document.createElement("li"), { textContent })));
  }
}

/** Who ran or passed comes first; who stayed says so last. @param {StepWire} step @param {import("../words/speaker.js").Words} words */
export function justDone(step, words) {
  const said = sentencesOf(step, words);
  const ran = new Set(step.tl.runs.map(([player]) => Number(player)));
  const order = step.who.map(([player], i) => ({ i, last: !ran.has(Number(player)) && Number(player) !== step.ball?.[1]?.p }));
  return order.sort((a, b) => Number(a.last) - Number(b.last) || a.i - b.i).map(({ i }) => said[i]);
}

/**
 * How much of the court is free behind whoever stands furthest from the baseline, CSS pixels.
 * @param {Record<number, Point>} places @param {import("../court/projection.js").Projection} projection
 */
function roomBehind(places, { px, height, radius, view }) {
  const down = Object.values(places).map((place) => px(place)[1]);
  return (view.turned ? Math.min(...down) : height - Math.max(...down)) - radius - 14;
}
