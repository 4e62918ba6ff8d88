/** The chains that stood on the board before, whoever replaced them and however: one tap brings one back. */

import { button, make } from "../ui/dom.js";
import { sayPlays } from "../words/plays-words.js";
import { firstWords } from "./search.js";
import { sayGeneral } from "../words/general-words.js";
import { listed } from "../words/sayer.js";

/**
 * @typedef {import("../state/wire.js").Earlier} Earlier
 *
 * @typedef {object} EarlierBoard
 * @property {() => Earlier[]} earlier
 * @property {(earlier: Earlier) => boolean} bringBack  false: it cannot be shown just now
 * @property {() => import("../words/speaker.js").Words} words
 */

/** When it was left: today the time alone. @param {number} at  seconds since 1970 */
function timeOf(at) {
  const then = new Date(at * 1000);
  const today = then.toDateString() === new Date().toDateString();
  const day = today ? {} : { day: "numeric", month: "short" };
  return new Intl.DateTimeFormat(document.documentElement.lang || "en", /** @type {Intl.DateTimeFormatOptions} */ ({ hour: "2-digit", minute: "2-digit", ...day })).format(then);
}

export class EarlierChains {
  /** @param {EarlierBoard} board @param {() => void} close */
  constructor(board, close) {
    this.board = board;
    this.close = close;
    this.summary = make("summary");
    this.list = make("ul");
    this.element = make("details", "earlier-chains", this.summary, make("p", "hint", sayPlays("earlier_hint")), this.list);
    this.drawn = "";
  }

  draw() {
    const earlier = this.board.earlier();
    const words = this.board.words();
    const rows = earlier.map((one) => ({ one, name: one.name || firstWords(one.line, words), when: timeOf(one.at) }));
    const key = JSON.stringify(rows.map(({ one, name, when }) => [one.chain, one.line.length, name, when]));
    this.element.hidden = !rows.length;
    if (key === this.drawn) return;
    this.drawn = key;
    this.summary.textContent = sayPlays("earlier", { n: rows.length });
    this.list.replaceChildren(...rows.map(({ one, name, when }) => {
      const facts = listed([sayGeneral("steps", { n: one.line.length }), when], "facts");
      const back = () => {
        if (this.board.bringBack(one)) this.close();
      };
      return make("li", "", button("open", make("span", "", make("strong", "", name), make("span", "facts", facts)), back,
        sayPlays("bring_back", { name, facts })));
    }));
  }
}
