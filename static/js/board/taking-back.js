/** Undo and redo: step by step, and across branches and chains. */

import { sayBoard } from "../words/board-words.js";
import { beforeThis } from "../state/state.js";

/**
 * @typedef {import("./desk.js").Opened} Opened
 *
 * @typedef {object} TakingBack
 * @property {() => void} undo  the last step; where a chain or a branch has just come, back to the one before it
 * @property {(count: number) => void} undoTo  until so many steps are left
 * @property {() => void} redo
 */

/**
 * @param {() => import("./desk.js").Desk} deskOf
 * @param {object} has
 * @param {import("./crossing.js").Crossing} has.crossing
 * @param {() => boolean} has.takeBack  the board to the branch that is looked at here: whether it was elsewhere
 * @param {() => boolean} has.unsure  what is on the board is on its way out
 * @param {(kind: "undo" | "redo") => void} has.step  take back or bring back one
 * @param {(sentence: string) => void} has.say
 * @returns {TakingBack}
 */
export function openTakingBack(deskOf, { crossing, takeBack, unsure, step, say }) {
  /** Go to a chain once its pack has been read, where the device has one. @param {Opened} chain @param {() => void} go */
  function onceRead({ formation, rules }, go) {
    const { packs, state } = deskOf();
    const refs = { formation, rules, court: state.board.court };
    if (packs.get(refs) || !packs.has(refs)) return go();
    // What has been done meanwhile counts for more.
    void packs.load(refs).catch(() => null).then(() => deskOf().state.change === state.change && go());
  }

  /** Do again what an undo has taken back: go to a chain, or begin one. @param {Opened} chain */
  function anew(chain) {
    onceRead(chain, () => {
      const desk = deskOf();
      const { formation, rules } = desk.state.board;
      const left = crossing.leave();
      if (chain.line.length) desk.open(chain);
      else if (chain.formation === formation && chain.rules === rules) desk.fresh();
      else desk.setup({ formation: chain.formation, rules: chain.rules });
      crossing.redone(left, chain);
    });
  }

  return {
    undo() {
      // What is undone is that the board has gone elsewhere.
      if (takeBack() || unsure()) return;
      const { state } = deskOf();
      const branch = crossing.ways.undo;
      const chain = branch ? null : beforeThis(state);
      const before = branch ?? (chain && { ...chain, id: chain.chain, undo: true });
      if (!before) return void (state.steps.length && step("undo"));
      onceRead(before, () => {
        const left = crossing.leave();
        if (!deskOf().open(before)) say(sayBoard("no_earlier"));
        else crossing.undone(left, before);
      });
    },
    undoTo(count) {
      takeBack();
      for (let more = deskOf().state.steps.length - count; more > 0 && !unsure(); more--) step("undo");
    },
    redo() {
      if (takeBack() || unsure()) return;
      const { redo } = crossing.ways;
      if (redo) anew(redo);
      else if (deskOf().state.ahead > 0) step("redo");
    },
  };
}
