/** What could not be done on the board because somebody else had moved it: kept as ways of their own. Pure. */

/**
 * @typedef {import("../state/state.js").Pending} Pending
 * @typedef {import("../state/state.js").Context} Context
 */

/**
 * The lines that hold everything in `pending`: none of them is only the beginning of another.
 * @param {Pending[]} pending
 * @returns {Context[]}
 */
export function linesOf(pending) {
  const all = pending.filter(({ kind, context }) => ["act", "line", "keep"].includes(kind) && context.line.length).map(({ context }) => context);
  return all.filter((one, i) => !all.some((other, j) => j !== i && one.chain === other.chain
    && begins(one.line, other.line) && (one.line.length < other.line.length || j < i)));
}

/** @param {string[][]} part @param {string[][]} whole */
export const begins = (part, whole) => part.length <= whole.length && part.every((actions, i) => actions.join() === whole[i].join());

/** This, and what was made after it. @param {Pending[]} pending @param {Pending} found */
export function builtOn(pending, found) {
  const ids = new Set([found.id]);
  for (const { id, after } of pending) if (after && ids.has(after)) ids.add(id);
  return pending.filter(({ id }) => ids.has(id));
}

/** Whether it puts a line on the board that is not shown before the server has told of it. @param {Pending} sent */
export const leavesLine = ({ kind, message: { t, formation, rules } }) =>
  kind === "other" && (t === "open" || t === "fresh" || (t === "setup" && Boolean(formation ?? rules)));

/** What only sets the board up, and can be done on it however it stands. @param {Pending[]} pending */
export const settings = (pending) =>
  pending.filter(({ message }) => message.t === "setup" && !("formation" in message) && !("rules" in message));
