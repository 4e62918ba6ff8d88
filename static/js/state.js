/**
 * What the board knows, in one plain object, changed by two functions only: `receive` for what the server
 * says, `change` for what this person does. Pure but for the list of listeners.
 */

/**
 * @typedef {import("./wire.js").Message} Message
 * @typedef {import("./wire.js").OffersMessage} OffersMessage
 * @typedef {import("./wire.js").StepWire} StepWire
 * @typedef {import("./wire.js").Standing} Standing
 * @typedef {import("./wire.js").Offer} Offer
 *
 * @typedef {object} Pending  something sent that the server has not answered yet
 * @property {string} id
 * @property {number} base  the server's count of changes it follows on
 * @property {"act" | "undo" | "redo" | "other"} kind
 * @property {number} [at]  act: how many steps stand before it
 * @property {StepWire} [step]  act: the step
 * @property {Record<string, string | null>} [places]  who is to play which place
 *
 * @typedef {{offers: Offer[], withheld: import("./wire.js").Withheld[]}} Menu  what may be tapped, and what not yet
 *
 * @typedef {object} State
 * @property {boolean} known  the server has told us the board
 * @property {"coach" | "viewer"} role
 * @property {import("./wire.js").Board} board
 * @property {import("./wire.js").Floor} floor
 * @property {import("./wire.js").Choices} choices
 * @property {import("./wire.js").Squad} squad
 * @property {import("./wire.js").Member[]} bench
 * @property {import("./wire.js").Calls} calls
 * @property {number} viewers
 * @property {number} seq  the server's count of changes
 * @property {number} first  index of the first step we hold (viewers joining a long chain hold its end)
 * @property {Standing} start  before the first step we hold
 * @property {StepWire[]} steps  what the server has saved
 * @property {StepWire[]} undone  taken back, the next to redo last
 * @property {number} ahead  how many can be redone
 * @property {Pending[]} pending  in the order sent
 * @property {Map<string, Menu>} menus  what may be tapped, by position (see `positionKey`)
 * @property {{id: string, name: string, kept: boolean}} [chain]  the one on the board; kept: among the team's plays
 * @property {import("./chain.js").Fork[]} [forks]  where the chain branches
 * @property {"live" | "catching up" | "offline" | "gone"} link
 * @property {string} notice  one sentence to show, "" for none
 * @property {number} notices  counts them, so that the same sentence can be said twice
 */

/** Positions whose offers are kept. */
const KEPT = 400;

/** @returns {State} */
export function blank() {
  return /** @type {State} */ (
    /** @type {unknown} */ ({
      known: false, role: "coach", board: null, floor: null, choices: null, squad: {}, bench: [], calls: {},
      viewers: 0, seq: -1, first: 0, start: null, steps: [], undone: [], ahead: 0, pending: [], menus: new Map(),
      link: "catching up", notice: "", notices: 0,
    })
  );
}

/**
 * The chain as this device shows it: what is saved, and what was sent and will be.
 * @param {State} state
 * @returns {{steps: StepWire[], undone: StepWire[], ahead: number}}
 */
export function shown(state) {
  let { steps, undone, ahead, seq } = state;
  for (const sent of state.pending) {
    if (sent.base !== seq) continue; // sent before a gap: the server's answer will tell
    seq += 1;
    if (sent.kind === "act" && sent.step) {
      [steps, undone, ahead] = [[...steps.slice(0, (sent.at ?? 0) - state.first), sent.step], [], 0];
    } else if (sent.kind === "undo" && steps.length) {
      [undone, ahead] = [[...undone, steps[steps.length - 1]], ahead + 1];
      steps = steps.slice(0, -1);
    } else if (sent.kind === "redo" && undone.length) {
      steps = [...steps, undone[undone.length - 1]];
      [undone, ahead] = [undone.slice(0, -1), ahead - 1];
    }
  }
  return { steps, undone, ahead };
}

/** The count of changes the next thing sent follows on. @param {State} state */
export function nextBase(state) {
  return state.pending.reduce((seq, sent) => (sent.base === seq ? seq + 1 : seq), state.seq);
}

/** Two positions with the same key offer the same. @param {Standing} standing */
export function positionKey(standing) {
  const who = Object.entries(standing.at).map(([player, spot]) => `${player}${spot}`);
  return `${who.sort().join()}|${standing.ball}|${standing.cutter ?? ""}|${standing.over ? "over" : ""}${standing.freed ?? ""}`;
}

/**
 * The position after `depth` of these steps.
 * @param {State} state
 * @param {StepWire[]} steps
 * @param {number} depth
 */
export function standingAt(state, steps, depth) {
  return depth > 0 ? steps[depth - 1].after : state.start;
}

/**
 * The state after a message of the server. Returns the same object where nothing changed.
 * @param {State} state
 * @param {Message} message
 * @returns {State}
 */
export function receive(state, message) {
  switch (message.t) {
    case "state": {
      const same = state.known && ["formation", "court", "level", "rules"].every(
        (key) => Reflect.get(state.board, key) === Reflect.get(message.board, key));
      const { role, board, floor, choices, squad, bench = [], calls, viewers, seq, first, start, ahead } = message;
      const mine = shown(state).steps;
      // On another floor, or at another speed, the same action is another movement.
      const steps = message.steps.map((step, i) => (same ? kept(mine[i + first - state.first], step) : step));
      const next = {
        ...state, known: true, role, board, floor, choices, squad, bench, calls, viewers, seq, first, start, ahead, steps,
        undone: same ? state.undone.slice(Math.max(0, state.undone.length - ahead)) : [],
        pending: state.pending.filter((sent) => sent.id !== message.id && (sent.kind !== "other" || sent.base >= seq)),
        menus: new Map(), // what a player may do can have changed unseen
      };
      return message.notice && message.notice !== state.notice ? noticed(next, message.notice) : next;
    }
    case "offers":
      return message.seq === state.seq ? withMenu(state, message) : state;
    case "step": {
      const pending = state.pending.filter((sent) => sent.id !== message.id);
      if (message.seq <= state.seq) return { ...state, pending };
      const before = shown(state).steps;
      const at = message.depth - 1 - state.first;
      const wasUndone = state.undone[state.undone.length - 1];
      const step = kept(before[at], kept(wasUndone, message.step));
      const again = wasUndone !== undefined && step === wasUndone;
      return {
        ...state, pending, seq: message.seq, steps: [...state.steps.slice(0, at), step], ahead: message.ahead,
        undone: again ? state.undone.slice(0, -1) : message.ahead ? state.undone : [],
      };
    }
    case "back": {
      const pending = state.pending.filter((sent) => sent.id !== message.id);
      if (message.seq <= state.seq) return { ...state, pending };
      const depth = message.depth - state.first;
      const undone = [...state.undone, ...state.steps.slice(depth).reverse()];
      return { ...state, pending, seq: message.seq, steps: state.steps.slice(0, depth), undone, ahead: message.ahead };
    }
    case "refused":
      // What was sent after it built on it, so all of it goes; the board shows what is saved.
      return noticed({ ...state, pending: [] }, message.message);
    case "viewers":
      return { ...state, viewers: message.n };
    case "gone":
      return { ...state, link: "gone", notice: message.message, notices: state.notices + 1 };
    default:
      return state;
  }
}

/**
 * The state after something this person did or this device noticed.
 * @param {State} state
 * @param {Partial<Pick<State, "pending" | "link" | "notice" | "viewers">>} patch
 * @returns {State}
 */
export function change(state, patch) {
  const { notice, ...rest } = patch;
  const next = { ...state, ...rest };
  return notice === undefined ? next : noticed(next, notice);
}

/** @param {State} state @param {string} notice */
function noticed(state, notice) {
  return { ...state, notice, notices: state.notices + 1 };
}

/**
 * The step we already hold if it is the same one, so that what is playing goes on playing.
 * @param {StepWire | undefined} mine
 * @param {StepWire} theirs
 */
function kept(mine, theirs) {
  if (!mine || mine.a.join() !== theirs.a.join()) return theirs;
  return positionKey(mine.after) === positionKey(theirs.after) ? mine : theirs;
}

/**
 * Whether a message follows on what we know; if not, something was missed and the state must be asked for.
 * @param {State} state
 * @param {Message} message
 */
export function follows(state, message) {
  if (message.t !== "step" && message.t !== "back") return true;
  return state.known && message.seq <= state.seq + 1;
}

/** @param {State} state @param {OffersMessage} message */
function withMenu(state, message) {
  const depth = message.at === undefined ? state.steps.length : message.at - state.first;
  if (depth < 0 || depth > state.steps.length) return state;
  const key = positionKey(standingAt(state, state.steps, depth));
  if (state.menus.has(key)) return state; // the same position offers the same
  const menus = new Map(state.menus);
  if (menus.size >= KEPT) menus.delete(menus.keys().next().value ?? "");
  const offers = message.offers.map((offer) => ({
    ...offer,
    tl: {
      ...offer.tl,
      runs: offer.tl.runs.map((/** @type {any[]} */ [player, start, lasts, index, style]) => [
        player, start, lasts, message.routes[index], style,
      ]),
    },
  }));
  menus.set(key, { offers, withheld: message.withheld });
  return { ...state, menus };
}

/**
 * A holder of the state: the one place it lives.
 * @param {(now: State, before: State) => void} listen  called after every change
 */
export function hold(listen) {
  let now = blank();
  /** @param {State} next */
  const become = (next) => {
    const before = now;
    if (next === before) return;
    now = next;
    listen(now, before);
  };
  return {
    get state() {
      return now;
    },
    /** @param {Message} message */
    receive: (message) => become(receive(now, message)),
    /** @param {Parameters<typeof change>[1]} patch */
    change: (patch) => become(change(now, patch)),
  };
}
