/**
 * What the device remembers of a board and of a team's plays, read as soon as anybody asks, and once for a page: a
 * small module asks while the board's own is still on its way. Each look is one message to the database and back.
 *
 * @typedef {import("./storage.js").Kept} Kept
 * @typedef {import("./storage.js").KeptKey} KeptKey
 */

import { openKept } from "./storage.js";

/** @type {Map<string, Promise<any>>} */
const looks = new Map();

/** @template T @param {string} name @param {(kept: Kept) => Promise<T>} look @returns {Promise<T>} */
function once(name, look) {
  const found = looks.get(name) ?? openKept().then(look);
  looks.set(name, found);
  return found;
}

/**
 * How a board stood, and what waits to be sent on any board, by which keys. Rejected if it cannot be read.
 * @param {string} board
 * @returns {Promise<{state: any, queue: any[], keys: KeptKey[]}>}
 */
export const boardKept = (board) => once(`board ${board}`, async (kept) => {
  const [state, queue, keys] = await Promise.all([kept.get("boards", board), kept.all("queue"), kept.allKeys("queue")]);
  return { state, queue, keys };
});

/**
 * A team's plays, and what waits to be sent of any team's, by which keys. Rejected if it cannot be read.
 * @param {string} team
 * @returns {Promise<{copy: any, ops: any[], keys: KeptKey[]}>}
 */
export const playsKept = (team) => once(`plays ${team}`, async (kept) => {
  const [copy, ops, keys] = await Promise.all([kept.get("chains", team), kept.all("ops"), kept.allKeys("ops")]);
  return { copy, ops, keys };
});
