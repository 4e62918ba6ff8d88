/**
 * What this device remembers of a board: how it stood when the server last told, and what was done since and has
 * not been answered. Written as things happen, so that closing the app at any moment loses nothing.
 */

import { boardKept } from "../device/early.js";
import { openKept } from "../device/storage.js";

/**
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/state.js").Pending} Pending
 *
 * @typedef {object} Memory
 * @property {() => Promise<{state: Partial<State>, pending: Pending[]} | null>} recall
 * @property {(now: State, before: State) => void} note  what has changed
 * @property {(ids: string[]) => void} [noted]
 */

/** Parts of the state that are kept. @type {(keyof State)[]} */
const PARTS = [
  "role", "board", "floor", "choices", "squad", "bench", "calls", "seq", "first", "start", "steps", "undone", "ahead",
  "forks", "chain", "change", "arrived", "earlier", "licences", "installed",
];

/**
 * @param {string} board
 * @param {(ids: Set<string>) => void} remembered  these are safe on the device now
 * @returns {Memory}
 */
export function openMemory(board, remembered) {
  const kept = openKept();
  /** Key in the queue, by the id of what was sent. @type {Map<string, number>} */
  const keys = new Map();
  /** Written one after the other, in the order things happened. */
  let last = Promise.resolve();

  /** @param {State} now @param {State} before */
  async function write(now, before) {
    const store = await kept;
    /** @type {import("../device/storage.js").Change[]} */
    const changes = [];
    const ids = new Set(now.pending.map(({ id }) => id));
    const fresh = now.pending.filter(({ id }) => !keys.has(id));
    const gone = [...keys.keys()].filter((id) => !ids.has(id));
    for (const sent of fresh) changes.push({ do: "add", store: "queue", value: { board, sent: { ...sent, kept: undefined } } });
    for (const id of gone) changes.push({ do: "delete", store: "queue", key: /** @type {number} */ (keys.get(id)) });
    if (PARTS.some((part) => now[part] !== before[part])) {
      const state = Object.fromEntries(PARTS.map((part) => [part, now[part]]));
      changes.push({ do: "put", store: "boards", key: board, value: state });
    }
    if (!changes.length) return;
    const made = await store.batch(changes);
    fresh.forEach(({ id }, i) => keys.set(id, Number(made[i])));
    gone.forEach((id) => keys.delete(id));
    if (fresh.length && store.persistent) remembered(new Set(fresh.map(({ id }) => id)));
  }

  return {
    async recall() {
      const { state, queue, keys: numbers } = await boardKept(board);
      /** @type {Pending[]} */
      const pending = [];
      queue.forEach((/** @type {{board: string, sent: Pending}} */ row, i) => {
        if (row.board !== board) return;
        keys.set(row.sent.id, Number(numbers[i]));
        pending.push({ ...row.sent, kept: true });
      });
      return state ? { state, pending } : null;
    },
    note(now, before) {
      if (!now.known) return;
      // A device that cannot write goes on without; the status says what is not safe.
      last = last.then(() => write(now, before)).catch(() => {});
    },
  };
}
