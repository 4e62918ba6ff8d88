/** What the desk sends: its names, its context, and how it crosses the wire. */

/**
 * @typedef {import("../state/state.js").State} State
 * @typedef {import("../state/state.js").Pending} Pending
 * @typedef {import("../state/state.js").Context} Context
 *
 * @typedef {object} Setup
 * @property {string} [formation]
 * @property {string} [court]
 * @property {number} [level]
 * @property {string} [rules]
 * @property {number | null} [stage]
 * @property {Record<string, string | null>} [places]  player of the squad, or nobody in particular
 *
 * @typedef {{id: string, formation: string, rules: string, line: string[][], depth: number, undo?: boolean}} Opened  undo: to
 *   take back what put the chain there that is on the board
 */

/** A name of its own for each thing sent; plain HTTP pages have no `randomUUID`. */
export function newId() {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/**
 * What a board becomes that is played by this pack.
 * @param {import("../offline/shelf.js").Held} held @param {State} state @param {number | null} [stage]
 */
export function boardOf({ head }, { board }, stage = head.rules === board.rules ? board.stage : null) {
  const { formation, formation_name, rules, rules_title, stages } = head;
  return { formation, formation_name, rules, rules_title, stages, stage };
}

/** As it crosses the wire. @param {Pending} sent @returns {any} */
export function wire({ id, base, after, message }) {
  return { ...message, id, ...(base < 0 ? {} : { base, ...(after ? { after } : {}) }) };
}

/** @param {string} chain @returns {Context} */
export const nothing = (chain) => ({ chain, formation: "", rules: "", line: [] });
