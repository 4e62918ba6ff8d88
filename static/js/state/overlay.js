/** The board as this device shows it: what is saved, and on top of it what was sent and will be. Pure. */

/**
 * @typedef {import("./state.js").State} State
 * @typedef {import("./state.js").Pending} Pending
 */

/** @type {WeakMap<State, State>} */
const made = new WeakMap();

/**
 * The same state with everything that waits for an answer done already; its own if nothing waits.
 * @param {State} state
 * @returns {State}
 */
export function shown(state) {
  if (state.ahead_of_server || !state.pending.length) return state;
  const known = made.get(state);
  if (known) return known;
  /** @type {State} */
  let now = { ...state, ahead_of_server: true };
  for (const sent of state.pending) {
    // What does not follow on what is there, as somebody else has moved the board: the server's answer will tell.
    if (followsOn(sent, now)) now = { ...done(now, sent), seq: now.seq + 1, change: sent.id };
  }
  made.set(state, now);
  return now;
}

/** Whether this was made on the board as it stands here: after so many changes, and after that one. @param {Pending} sent @param {State} state */
const followsOn = ({ base, after }, { seq, change }) => base === seq && (after === undefined || after === change);

/** @param {State} state @param {Pending} sent @returns {State} */
function done(state, sent) {
  const next = applied(state, sent);
  return sent.kind === "line" ? next : { ...next, arrived: false };
}

/** @param {State} state @param {Pending} sent @returns {State} */
function applied(state, sent) {
  const { steps, undone, ahead } = state;
  switch (sent.kind) {
    case "act":
      return sent.step ? acted(state, (sent.at ?? 0) - state.first, sent.step) : state;
    case "undo":
      if (!steps.length) return state;
      return { ...state, steps: steps.slice(0, -1), undone: [...undone, steps[steps.length - 1]], ahead: ahead + 1 };
    case "redo":
      if (!undone.length) return state;
      return { ...state, steps: [...steps, undone[undone.length - 1]], undone: undone.slice(0, -1), ahead: ahead - 1 };
    case "line": {
      if (!sent.line) return state;
      const { depth, steps: whole, ...others } = sent.line;
      const undone = whole.slice(depth).reverse();
      const board = { ...state.board, ...others.board };
      const undo = sent.message.undo === true;
      const left = leaving(state, others.chain.id, undo, sent.when ?? 0);
      return {
        ...state, ...others, board, first: 0, steps: whole.slice(0, depth), undone, ahead: undone.length, forks: [],
        earlier: left, arrived: !undo && others.chain.id !== state.chain?.id,
      };
    }
    default:
      return state;
  }
}

/** Earlier chains kept. */
const EARLIER = 20;

/**
 * The earlier chains once another one is on the board, as the server tells them.
 * @param {State} state @param {string} to  the one that comes @param {boolean} undo  as an undo of what put this one here
 * @param {number} at  seconds since 1970 @returns {State["earlier"]}
 */
function leaving({ chain, board, steps, undone, earlier = [] }, to, undo, at) {
  if (!chain || chain.id === to) return earlier;
  const line = wayOf(/** @type {State} */ ({ steps, undone })).map(({ a }) => a);
  const next = undo ? "" : to;
  // An empty chain is passed over: what it replaced was replaced by what came after it.
  const others = (line.length ? earlier : earlier.map((one) => (one.to === chain.id ? { ...one, to: next } : one)))
    .filter((one) => one.chain !== to && one.chain !== chain.id);
  if (!line.length) return others;
  const left = {
    chain: chain.id, name: chain.kept ? chain.name : "", formation: board.formation, rules: board.rules, line, depth: steps.length, at, to: next,
  };
  return [left, ...others].slice(0, EARLIER);
}

/**
 * The chain that an undo brings back: where this one has just been put on the board, or nothing of it is left to undo.
 * @param {State} state
 */
export function beforeThis({ arrived, steps, chain, earlier = [] }) {
  return ((arrived || !steps.length) && earlier.find(({ to }) => to && to === chain?.id)) || null;
}

/** The steps played and those ahead of them, as far as they are known. @param {Pick<State, "steps" | "undone">} state */
export const wayOf = ({ steps, undone }) => [...steps, ...[...undone].reverse()];

/**
 * The steps once this one is played after so many. If the line goes on like this anyway, the rest of it stays ahead.
 * @param {State} state @param {number} at @param {import("./wire.js").StepWire} step
 */
export function along(state, at, step) {
  const way = wayOf(state);
  const again = way[at] !== undefined && same(way[at], step);
  return {
    steps: [...state.steps.slice(0, at), step],
    undone: again ? way.slice(at + 1).reverse() : [],
    ahead: again ? state.steps.length + state.ahead - at - 1 : 0,
  };
}

/**
 * From which step on another chain, or another branch of this one, has come; -1: it only went on, or back.
 * @param {State} before @param {State} now
 */
export function newFrom(before, now) {
  if (before.first !== now.first) return -1;
  let at = 0;
  while (at < now.steps.length && at < before.steps.length && same(now.steps[at], before.steps[at])) at++;
  if (at === now.steps.length) return -1;
  return at < before.steps.length || (!at && now.steps.length > 1) ? at : -1;
}

/** @param {State} state @param {number} at @param {import("./wire.js").StepWire} step @returns {State} */
function acted(state, at, step) {
  const { forks = [] } = state;
  const left = wayOf(state);
  const next = { ...state, ...along(state, at, step) };
  // Chosen otherwise than before: what was there goes on as another way. Further on, the ways of the old one end.
  if (!left[at] || same(left[at], step)) return next;
  const other = { line: left.map(({ a }) => a), say: left[at].say, steps: left.length };
  const kept = forks.filter(({ depth }) => depth <= at).map((fork) => (fork.depth === at
    ? { ...fork, others: [other, ...fork.others.filter(({ line }) => line[at].join() !== step.a.join())] } : fork));
  return { ...next, forks: kept.some(({ depth }) => depth === at) ? kept : [...kept, { depth: at, others: [other] }] };
}

/** @param {import("./wire.js").StepWire} one @param {import("./wire.js").StepWire} other */
const same = (one, other) => one.a.join() === other.a.join();

/** The count of changes the next thing sent follows on. @param {State} state */
export function nextBase(state) {
  return shown(state).seq;
}

/** The id of the change the next thing sent follows on; null if it is not known. @param {State} state */
export function lastChange(state) {
  return shown(state).change;
}
