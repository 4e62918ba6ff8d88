/** Another coach has gone to another branch: this screen stays where it is until its own coach goes along, or plays on. */

import { begins } from "../offline/conflicts.js";
import { follows, receive, shown, wayOf } from "../state/state.js";

/**
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/state.js").Shown} Shown
 * @typedef {import("../state/wire.js").Message} Message
 *
 * @typedef {object} Apart
 * @property {boolean} is  whether the board stands elsewhere than this screen
 * @property {(message: Message) => boolean} takes  whether this message is of a branch that is not on this screen
 * @property {() => void} join  show the board as it is
 * @property {() => Shown | null} leave  the same, and return what was on this screen, to be put back on the board
 */

/** What only changes what is played, or what may be. */
const OF_THE_CHAIN = ["state", "step", "back", "offers"];

/**
 * Whether a new state of the board goes on in another way than this screen shows.
 * @param {State} mine @param {State} theirs
 */
export function partsFrom(mine, theirs) {
  const text = (/** @type {State["steps"]} */ steps) => steps.map(({ a }) => a);
  // A chain whose beginning one of the two does not hold cannot be compared from its start.
  return mine.chain?.id === theirs.chain?.id && mine.first === theirs.first && !begins(text(mine.steps), text(wayOf(theirs)));
}

/**
 * @param {import("../state/state.js").Store} store
 * @param {() => void} again  ask for the state: something was missed
 * @returns {Apart}
 */
export function openApart(store, again) {
  /** The board as the others have it; null: as it is here. @type {State | null} */
  let theirs = null;

  function join() {
    if (!theirs) return;
    const { link, viewers } = store.state;
    const told = { ...theirs, link, viewers, elsewhere: false };
    theirs = null;
    store.recall(told, []);
  }

  return {
    get is() {
      return theirs !== null;
    },
    takes(message) {
      const { state } = store;
      if (!state.known || !OF_THE_CHAIN.includes(message.t)) return false;
      if (theirs) {
        if (!follows(theirs, message)) return (again(), true);
        theirs = receive(theirs, message);
        // They have come back, or there is another chain on the board, which everybody sees.
        if (!partsFrom(state, theirs)) join();
        return true;
      }
      // What was missed while away is caught up with, and what is on its way from here is answered.
      if (message.t !== "state" || state.link !== "live" || state.pending.length) return false;
      const next = receive(state, message);
      if (!partsFrom(state, next)) return false;
      theirs = next;
      store.change({ elsewhere: true });
      return true;
    },
    join,
    leave() {
      if (!theirs) return null;
      const { board, start, chain, floor, steps, first } = shown(store.state);
      join();
      return chain && !first ? { board, start, chain, floor, steps, depth: steps.length } : null;
    },
  };
}
