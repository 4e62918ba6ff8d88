/** The chain over the court as it is shown now: drawn again only where something of it changed. */

import { listed } from "../words/sayer.js";
import { drawChain, markChain } from "./chain.js";

/**
 * @typedef {Parameters<typeof drawChain>} Drawn
 *
 * @typedef {object} Row
 * @property {import("../state/state.js").State} state
 * @property {Drawn[1]} steps
 * @property {number} depth  of them that have begun
 * @property {import("../words/speaker.js").Words} words
 * @property {string} play  the name of the play on the board, "" for none
 * @property {Drawn[5]} forks
 * @property {Drawn[4]} go
 * @property {Drawn[6]} fork
 * @property {import("../state/wire.js").StepWire[]} undone  what comes next if the chain goes on as before, the next one last
 * @property {Drawn[8]} again
 */

export class ChainRow {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    /** What was drawn last. */
    this.drawn = { chain: /** @type {unknown} */ (null), undone: /** @type {unknown[]} */ ([]), forks: /** @type {unknown} */ (null), play: "" };
    /** The step that is marked; -1 for none. */
    this.depth = -1;
  }

  /** Its words have changed. */
  forget() {
    this.drawn.chain = null;
  }

  /** Its mark may stand elsewhere now. */
  unmark() {
    this.depth = -1;
  }

  /** @param {Row} row */
  draw({ state, steps, depth, words, play, forks, go, fork, undone, again }) {
    const { drawn, root } = this;
    // The same steps may be held in another list after every answer.
    const isNew = undone.length !== drawn.undone.length || undone.some((step, i) => step !== drawn.undone[i]);
    if (drawn.chain !== steps || isNew || drawn.forks !== forks || drawn.play !== play) {
      Object.assign(drawn, { chain: steps, undone, forks, play });
      const formation = state.board.formation.includes("@") ? state.board.formation_name : words.formation(state.board.formation);
      drawChain(root, steps, listed([play, formation].filter(Boolean), "facts"), words, go, forks, fork, [...undone].reverse(), again);
      this.unmark();
    }
    if (this.depth !== depth) markChain(root, depth);
    this.depth = depth;
  }
}
