/** Small values: the timeout clock, words in a mirror, changes that are taken back, and rules as they are edited. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { figure, LAST, LATE, leftAt, levelAt, passed, ready, revived, started, stopped, untilNext, within } from "../../static/js/huddle/clock-time.js";
import { begun, blankDraft, done, drawn, isDraft, placed, redone, removed, undone, waits, without, withThen } from "../../static/js/drawn/drawing.js";
import { nudged, plan } from "../../static/js/drawn/timing.js";
import { sayStart, sayStep } from "../../static/js/viewer/reading.js";
import { speaker } from "../../static/js/words/speaker.js";
import { install, moveStage, respond, teach, untaught } from "../../static/js/team/rule-data.js";
import { chains, dice, seeds, table } from "./some.js";

test("the clock goes by the wall clock, stands while it is stopped, and never goes beyond its ends", () => {
  const running = started(ready(60), 1000);
  assert.deepEqual([1000, 31_000, 61_000, 99_000].map((now) => leftAt(running, now)), [60, 30, 0, 0]);
  assert.equal(leftAt(running, -500_000), 60, "a device whose time is put back has no longer time-outs");
  const halted = stopped(running, 21_000);
  assert.deepEqual([leftAt(halted, 22_000), leftAt(halted, 900_000)], [40, 40]);
  assert.equal(leftAt(started(halted, 100_000), 110_000), 30);
});

test("a second is shown until it has passed, and the next look comes when it has", () => {
  assert.deepEqual([60, 59.999, 59.001, 59, 0.2, 0].map(figure), ["1:00", "1:00", "1:00", "0:59", "0:01", "0:00"]);
  for (const seed of seeds(100)) {
    const left = dice(seed).between(1.2, 600);
    const after = (/** @type {number} */ ms) => figure(left - ms / 1000);
    assert.notEqual(after(untilNext(left)), figure(left), `${left}`);
    if (untilNext(left) > 12) assert.equal(after(untilNext(left) - 2), figure(left), `${left}`);
  }
});

test("each warning is given once, and none long after", () => {
  assert.deepEqual([16, 15, 5.1, 5, 0.1, 0].map(levelAt), ["run", "late", "late", "last", "last", "over"]);
  const marks = [];
  for (let left = 20; left > -1; left -= 0.25) marks.push(passed(Math.max(0, left + 0.25), Math.max(0, left)));
  assert.deepEqual(marks.filter((mark) => mark !== null), [LATE, LAST, 0]);
  assert.equal(passed(30, 10), null, "a tab that was hidden does not sound what is long past");
});

test("a clock that was kept is read again, and nothing else is", () => {
  for (const clock of [ready(30), started(ready(75), 5000), stopped(started(ready(60), 0), 12_345)]) assert.deepEqual(revived(JSON.parse(JSON.stringify(clock))), clock);
  for (const broken of [null, 7, {}, { length: 3, ends: null, left: 3 }, { length: 60, ends: null, left: 61 }, { length: 60, ends: "1", left: 1 }]) assert.equal(revived(broken), null);
  assert.deepEqual([1, 61.4, 9999].map(within), [10, 61, 600]);
});

test("in a mirror left and right change over in words too, and names stand for numbers", () => {
  const plain = speaker();
  const mirrored = speaker({ mirrored: true, name: (n) => `#${n}` });
  for (const spot of Object.keys(table.spots)) {
    const other = spot.startsWith("left") ? spot.replace("left", "right") : spot.replace("right", "left");
    assert.equal(mirrored.spot(spot), plain.spot(other));
    assert.deepEqual(mirrored.forms(spot), plain.forms(other));
  }
  assert.equal(mirrored.fill("{p} to {m} {at}, {d}", { p: 1, m: 2, s: "left_wing", d: "left" }), `#1 to #2 ${plain.at("right_wing")}, ${plain.direction("right")}`);
});

test("a player's phone says every step to him and of all the others, with no slot left open", () => {
  const words = speaker();
  for (const { start, steps } of chains) {
    for (const me of [1, 2, 3, 4, 5, null]) {
      for (const { mine, others } of [sayStart(start, me, words, true), ...steps.map((step) => sayStep(step, me, words, true))]) {
        assert.equal(mine === "", me === null);
        assert.equal(others.length, me === null ? 5 : 4);
        for (const sentence of [mine, ...others]) assert.ok(!/[{}_]|undefined|  /.test(sentence), sentence);
      }
    }
  }
});

const PLACES = Object.fromEntries([1, 2, 3, 4, 5].map((n) => [n, /** @type {[number, number]} */ ([100 * n - 300, 500])]));
/** @param {string} who @param {number} x */
const run = (who, x) => ({ does: /** @type {const} */ ("run"), who, points: /** @type {[number, number][]} */ ([[x, 300]]), bar: false });

test("what is drawn can be taken back and brought back, as deep as it goes", () => {
  let history = begun(blankDraft(PLACES, 1));
  const seen = [history.now];
  for (let i = 0; i < 6; i++) seen.push((history = done(history, drawn(history.now, run("2", 10 * i)))).now);
  for (const draft of [...seen].reverse().slice(1)) assert.equal((history = undone(history)).now, draft);
  assert.equal(undone(history).now, seen[0]);
  for (const draft of seen.slice(1)) assert.equal((history = redone(history)).now, draft);
  assert.equal(redone(history).now, seen[6]);
  const other = done(undone(history), drawn(seen[5], run("3", 0)));
  assert.equal(redone(other).now, other.now, "after something else there is nothing to bring back");
});

test("one drag is one change, however often it moved", () => {
  let history = begun(blankDraft(PLACES, 1));
  for (let x = 0; x < 9; x++) history = done(history, placed(history.now, "x1", [x, 0]), "drag x1");
  assert.equal(undone(history).now.places.x1, undefined);
});

test("after Then, what is drawn waits until the rest is over", () => {
  let draft = drawn(blankDraft(PLACES, 1), run("2", 0));
  draft = drawn(draft, run("3", 0));
  assert.ok(!waits(draft));
  draft = withThen(draft, true);
  assert.ok(waits(draft));
  const [two, three, four] = plan(drawn(draft, run("4", 0)), 1).moves;
  assert.deepEqual([two.start, three.start, four.start], [0, 0, Math.max(two.end, three.end)]);
  const [, , joined] = plan(drawn(withThen(draft, false), run("4", 0)), 1).moves;
  assert.equal(joined.start, 0);
});

test("earlier or later moves a move by at least a tap, unless something has to be over first", () => {
  const draft = drawn(drawn(blankDraft(PLACES, 1), run("2", 700)), run("2", 0));
  const startOf = (/** @type {import("../../static/js/drawn/drawing.js").Draft} */ each) => plan(each, 1).moves[1].start;
  const later = nudged(draft, 2, 20, 1);
  assert.ok(startOf(later) > startOf(draft), "what it waits for hides nothing of a tap on later");
  assert.equal(nudged(draft, 2, -20, 1), draft, "and it goes no earlier than that");
});

test("who is taken away takes with him what he does, and a draft of the device's is checked before it is drawn", () => {
  const draft = drawn(placed(blankDraft(PLACES, 1), "x1", [0, 0]), run("x1", 50));
  assert.ok(isDraft(JSON.parse(JSON.stringify(draft))));
  const gone = removed(draft, "x1");
  assert.deepEqual([gone.moves, gone.places.x1], [[], undefined]);
  assert.equal(without(draft, 1).moves.length, 0);
  const broken = [null, {}, { ...draft, places: { ...draft.places, 1: [0.5, 1] } }, { ...draft, ball: 6 }, { ...draft, moves: [{ does: "fly" }] }, { ...gone, moves: draft.moves }];
  for (const each of broken) assert.equal(isDraft(each), false, JSON.stringify(each));
});

/** @type {any} */
const VOCABULARY = { happens: { pass: ["passed"], drive: ["drove"] }, lane: ["fill", "flash"], always: ["shot"] };

test("an action is taught in one stage, and leaves the stages with the rules", () => {
  /** @type {any} */
  const data = { actions: ["pass", "shot"], lane: ["fill"], responses: {}, stages: [{ adds: ["pass"] }, { adds: [] }] };
  install(data, "drive", true, VOCABULARY);
  install(data, "flash", true, VOCABULARY);
  install(data, "flash", true, VOCABULARY);
  assert.deepEqual([data.actions, data.lane], [["pass", "shot", "drive"], ["fill", "flash"]]);
  teach(data, 1, "pass", true);
  assert.deepEqual(data.stages, [{ adds: [] }, { adds: ["pass"] }]);
  assert.deepEqual(untaught(data, VOCABULARY), ["drive", "fill", "flash"]);
  moveStage(data, 1, 0);
  assert.deepEqual(data.stages, [{ adds: ["pass"] }, { adds: [] }]);
  install(data, "pass", false, VOCABULARY);
  assert.deepEqual([data.actions, data.stages], [["shot", "drive"], [{ adds: [] }, { adds: [] }]]);
});

test("a role has a line of its own only while it does something", () => {
  /** @type {any} */
  const data = { responses: {} };
  respond(data, "passed", "passer", ["cut"]);
  respond(data, "passed", "corner", ["lift", "stay"]);
  assert.deepEqual(data.responses, { passed: { passer: "cut", corner: ["lift", "stay"] } });
  respond(data, "passed", "passer", []);
  assert.deepEqual(data.responses, { passed: { corner: ["lift", "stay"] } });
});
