/** A coach's board between a tap and the server's answer: what is shown, what is sent next, and what answers change. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { termsOf } from "../../static/js/offline/terms.js";
import { blank, change, follows, hold, lastChange, nextBase, positionKey, receive, shown, standingAt } from "../../static/js/state/state.js";
import { chains, dice, seeds } from "./some.js";

/**
 * @typedef {import("../../static/js/state/state.js").State} State
 * @typedef {import("../../static/js/state/state.js").Pending} Pending
 * @typedef {import("../../static/js/state/wire.js").StepWire} StepWire
 */

const [CHAIN] = chains;
const copy = (/** @type {any} */ value) => structuredClone(value);
const actions = (/** @type {StepWire[]} */ steps) => steps.map(({ a }) => a.join(" "));

/** What the server says of a board as it stands. @param {object} [more] @returns {any} */
const said = (more) => ({
  t: "state", seq: 0, id: null, role: "coach", board: { formation: "five_out", court: "fiba", level: 1, rules: "r" }, floor: CHAIN.floor,
  first: 0, start: CHAIN.start, steps: [], ahead: 0, viewers: 0, choices: {}, squad: {}, bench: [], calls: {}, change: "c0", ...more,
});

/** A server that does all it is asked, one thing after the other. */
function server() {
  /** @type {{steps: StepWire[], undone: StepWire[], seq: number}} */
  const board = { steps: [], undone: [], seq: 0 };
  return {
    board,
    /** @param {Pending} sent @returns {any} */
    answer({ id, base, kind, at = 0, step }) {
      assert.equal(base, board.seq, "what is sent follows on what will have been done before it");
      board.seq++;
      const told = () => ({ id, seq: board.seq, depth: board.steps.length, ahead: board.undone.length });
      if (kind === "undo") {
        board.undone.push(/** @type {StepWire} */ (board.steps.pop()));
        return { t: "back", ...told() };
      }
      const way = [...board.steps, ...[...board.undone].reverse()];
      const played = kind === "redo" ? way[board.steps.length] : copy(step);
      const begin = kind === "redo" ? board.steps.length : at;
      const again = way[begin]?.a.join() === played.a.join();
      board.steps = [...board.steps.slice(0, begin), played];
      board.undone = again ? way.slice(begin + 1).reverse() : [];
      return { t: "step", step: copy(played), ...told() };
    },
  };
}

/** Something the coach does next, from what he sees. @param {State} state @param {ReturnType<typeof dice>} chance @param {string} id @returns {Pending} */
function something(state, { of, below, chance }, id) {
  const now = shown(state);
  const base = { id, base: nextBase(state), after: lastChange(state) ?? undefined, message: {}, context: /** @type {any} */ ({ line: [] }) };
  if (now.steps.length && chance(0.3)) return { ...base, kind: "undo" };
  if (now.ahead && chance(0.5)) return { ...base, kind: "redo" };
  const at = chance(0.7) ? now.steps.length : below(now.steps.length + 1);
  const known = [...now.steps, ...[...now.undone].reverse()][at];
  return { ...base, kind: "act", at, step: known && chance(0.4) ? copy(known) : copy(of(CHAIN.steps)) };
}

test("what the board shows before the answers come is what it shows after", () => {
  for (const seed of seeds(300)) {
    const chance = dice(seed);
    const there = server();
    let state = receive(blank(), said());
    for (let turn = 0; turn < 40; turn++) {
      if (chance.chance(0.5)) {
        state = change(state, { pending: [...state.pending, something(state, chance, `${seed}.${turn}`)] });
      } else if (state.pending.length) {
        const before = shown(state);
        state = receive(state, there.answer(state.pending[0]));
        const after = shown(state);
        const why = `seed ${seed}, turn ${turn}`;
        assert.deepEqual(actions(after.steps), actions(before.steps), why);
        assert.ok(after.steps.every((step, i) => step === before.steps[i]), `${why}: what is playing goes on playing`);
        assert.equal(after.ahead, before.ahead, why);
        assert.equal(nextBase(state), before.seq, why);
      }
    }
    while (state.pending.length) state = receive(state, there.answer(state.pending[0]));
    assert.deepEqual(actions(state.steps), actions(there.board.steps), `seed ${seed}`);
    assert.deepEqual(actions(state.undone), actions(there.board.undone), `seed ${seed}`);
    assert.equal(shown(state), state);
  }
});

test("what was made on a board that somebody else has moved is not shown", () => {
  let state = receive(blank(), said());
  state = change(state, { pending: [something(state, dice(1), "mine")] });
  assert.equal(shown(state).steps.length, 1);
  const theirs = copy(CHAIN.steps[0]);
  state = receive(state, { t: "step", seq: 1, id: "theirs", depth: 1, step: theirs, ahead: 0 });
  assert.deepEqual(actions(shown(state).steps), actions([theirs]));
  assert.deepEqual(state.pending.map(({ id }) => id), ["mine"]);
});

test("a line that is opened is on the board at once, so many steps of it played, and the rest can be redone", () => {
  const state = receive(blank(), said({ steps: copy(CHAIN.steps.slice(4, 6)), change: "c9" }));
  const line = { board: { rules: "mine@2" }, start: CHAIN.start, floor: CHAIN.floor, chain: { id: "other", name: "", kept: true }, steps: CHAIN.steps, depth: 3 };
  /** @type {any} */
  const sent = { id: "open", base: 0, after: "c9", kind: "line", message: {}, line };
  const now = shown(change(state, { pending: [sent] }));
  assert.deepEqual(now.steps, CHAIN.steps.slice(0, 3));
  assert.deepEqual([now.ahead, now.undone.at(-1), now.chain?.id], [5, CHAIN.steps[3], "other"]);
  assert.deepEqual([now.board.rules, now.board.formation], ["mine@2", "five_out"]);
  const undo = { ...sent, id: "undo", base: 1, after: "open", kind: "undo" };
  assert.deepEqual(shown(change(state, { pending: [sent, undo] })).steps, CHAIN.steps.slice(0, 2));
});

test("what was there before one chose otherwise is another way, and further on the ways of the old line end", () => {
  const [a, b, c, other] = copy(CHAIN.steps);
  other.a = ["something else"];
  let state = receive(blank(), said({ steps: [a, b, c], change: "c9" }));
  const fork = (/** @type {number} */ depth) => ({ depth, others: [{ line: [...[a, b].slice(0, depth).map((step) => step.a), ["old"]], say: [], steps: depth + 1 }] });
  state = { ...state, forks: /** @type {any} */ ([fork(0), fork(2)]) };
  const act = { id: "x", base: 0, after: "c9", kind: "act", at: 1, step: other, message: {} };
  const now = shown(change(state, { pending: [/** @type {any} */ (act)] }));
  assert.deepEqual(actions(now.steps), actions([a, other]));
  assert.deepEqual(now.forks.map(({ depth }) => depth), [0, 1]);
  assert.deepEqual(now.forks[1].others.map(({ line }) => line), [[a, b, c].map((step) => step.a)]);
});

test("a pack is played on the terms of those who are on the places", () => {
  const limited = { may: ["pass"], lane: [] };
  const squad = { 1: { id: "ada", number: "4", name: "" }, 2: null };
  const state = receive(blank(), said({ squad, bench: [{ id: "bo", number: "5", name: "" }], licences: { bo: limited }, installed: ["pass"] }));
  assert.deepEqual(termsOf(state), { level: 1, installed: ["pass"], licences: {} });
  assert.deepEqual(termsOf(change(state, { pending: [/** @type {any} */ ({ places: { 2: "bo" } })] })).licences, { 2: limited });
});

test("the server's whole state leaves what waits, but for what it answers", () => {
  let state = receive(blank(), said());
  for (const id of ["a", "b", "c"]) state = change(state, { pending: [...state.pending, something(state, dice(2), id)] });
  state = receive(state, said({ seq: 1, id: "a", steps: copy(CHAIN.steps.slice(0, 1)) }));
  assert.deepEqual(state.pending.map(({ id }) => id), ["b", "c"]);
});

test("a message that does not follow on what is known asks for the whole state", () => {
  const state = receive(blank(), said({ seq: 4 }));
  const step = (/** @type {number} */ seq) => /** @type {any} */ ({ t: "step", seq, id: null, depth: 1, step: CHAIN.steps[0], ahead: 0 });
  assert.deepEqual([3, 5, 6].map((seq) => follows(state, step(seq))), [true, true, false]);
  assert.equal(follows(blank(), step(0)), false);
  assert.equal(follows(blank(), said()), true);
});

test("a message that is told again changes nothing on the board", () => {
  const once = receive(receive(blank(), said()), { t: "step", seq: 1, id: "a", depth: 1, step: CHAIN.steps[0], ahead: 0 });
  const twice = receive(once, { t: "step", seq: 1, id: "a", depth: 1, step: copy(CHAIN.steps[0]), ahead: 0 });
  assert.equal(twice.steps, once.steps);
  assert.equal(twice.seq, 1);
});

test("offers are kept by position, each with its own paths", () => {
  for (const { steps, start, offers, formation } of chains) {
    let state = receive(blank(), said({ seq: 7, start, steps: copy(steps), board: { formation, court: "fiba", level: 1, rules: "r" } }));
    offers.forEach((given, at) => (state = receive(state, { ...copy(given), t: "offers", seq: 7, at })));
    offers.forEach((given, at) => {
      const menu = state.menus.get(positionKey(standingAt(state, state.steps, at)));
      assert.deepEqual(menu?.offers.map(({ a }) => a), given.offers.map((/** @type {any} */ { a }) => a));
      assert.ok(menu?.offers.every(({ tl }) => tl.runs.every(([, , , path]) => /^M-?\d/.test(path))));
    });
    const bare = receive(state, said({ seq: 7, start, steps: copy(steps) }));
    assert.equal(bare.menus.size, 0, "with a whole state what a player may do can have changed");
    assert.equal(receive(bare, { ...copy(offers[0]), t: "offers", seq: 6, at: 0 }), bare, "offers of before the last change are let go");
  }
});

test("who listens is told of every change, and of nothing else", () => {
  /** @type {[State, State][]} */
  const heard = [];
  const store = hold((now, before) => heard.push([now, before]));
  store.receive(said());
  store.receive({ t: "pong" });
  store.change({ notice: "Saved." });
  store.change({ notice: "Saved." });
  assert.deepEqual(heard.map(([now]) => now.notices), [0, 1, 2]);
  assert.ok(heard.every(([now, before], i) => now !== before && (i === 0 || before === heard[i - 1][0])));
});
