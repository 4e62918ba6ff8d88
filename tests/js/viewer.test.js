/** A player's phone: whose part it shows, and how it stands to the coach. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { lineState, momentWords } from "../../static/js/viewer/line-state.js";
import { changeOf, partOf, settled, WATCHES } from "../../static/js/viewer/part.js";

/** @param {(string | null)[]} floor  numbers on positions 1 to 5 @param {string[]} bench */
const people = (floor, bench = []) => ({
  squad: Object.fromEntries(floor.map((number, i) => [i + 1, number === null ? null : { id: `p${number}`, number }])),
  bench: bench.map((number) => ({ id: `p${number}`, number })),
});
const BEFORE = people(["4", "7", "10", "14", "23"], ["5", "12", "00"]);

/** What a phone is told when the board becomes another. @param {ReturnType<typeof people>} after @param {string} mine @param {string | null} [follows] */
const told = (after, mine, follows = null) => {
  const [then, now] = [partOf(mine, follows, BEFORE), partOf(mine, follows, after)];
  const change = changeOf(then, now, mine);
  return change && [change.key, change.n, change.place, change.ask];
};

test("a number is the player who wears it, never a position with that digit", () => {
  assert.deepEqual(partOf("7", null, BEFORE), { is: "floor", place: 2, by: "7", of: "" });
  assert.equal(partOf("5", null, BEFORE).is, "bench", "5 sits on the bench, whoever plays position 5");
  assert.equal(partOf("00", null, BEFORE).is, "bench");
  assert.equal(partOf("0", null, BEFORE).is, "unknown");
  assert.equal(partOf(WATCHES, null, BEFORE).place, 0);
  assert.equal(partOf(null, null, BEFORE).is, "asked");
});

test("where no squad is known a number can only be a position", () => {
  assert.equal(settled("5", people([null, null, null, null, null])), "place 5");
  assert.equal(settled("5", BEFORE), "5");
  assert.equal(settled("5", people([null, null, null, null, null], ["12"])), "5");
  assert.equal(settled("12", people([])), "12");
});

test("who is on the bench follows somebody on the floor, or a position", () => {
  assert.deepEqual(partOf("12", "7", BEFORE), { is: "bench", place: 2, by: "", of: "7" });
  assert.deepEqual(partOf("12", "place 3", BEFORE), { is: "bench", place: 3, by: "", of: "" });
  assert.equal(partOf("12", "00", BEFORE).place, 0, "nobody on the floor wears it");
});

test("whatever a lineup makes of a phone's part is told, and asked where the part is gone", () => {
  const same = people(["4", "7", "10", "14", "23"], ["5", "12", "00", "33"]);
  assert.equal(told(same, "7"), null);
  const swapped = people(["4", "10", "7", "14", "12"], ["5", "23", "00"]);
  assert.deepEqual(told(swapped, "7"), ["moved", "7", 3, false]);
  assert.deepEqual(told(swapped, "12"), ["came_in", "12", 5, false]);
  assert.deepEqual(told(swapped, "23"), ["to_bench", "23", 0, true]);
  assert.equal(told(swapped, "4"), null);
  assert.deepEqual(told(swapped, "00", "7"), ["other_moved", "7", 3, false]);
  assert.deepEqual(told(swapped, "00", "23"), ["other_left", "23", 0, true]);
  assert.equal(told(swapped, "00", "place 5"), null, "a position stays what it is");
  assert.deepEqual(told(people(["4", null, "10", "14", "23"], ["12"]), "7"), ["left_squad", "7", 0, true]);
});

test("a position chosen before there was a lineup is not given to somebody else unasked", () => {
  const empty = people([null, null, null, null, null]);
  const [then, now] = [empty, BEFORE].map((each) => partOf("place 5", null, each));
  assert.deepEqual(changeOf(then, now, "place 5"), { key: "taken", n: "23", place: 5, ask: true });
  const worn = partOf("5", null, people(["5", null, null, null, null]));
  assert.deepEqual(changeOf(then, worn, "5"), { key: "taken", n: "5", place: 1, ask: true });
});

test("the line at the top is the worst of what is true", () => {
  const now = 10_000_000;
  /** @param {Partial<import("../../static/js/viewer/line-state.js").Known>} known */
  const state = (known) => lineState({ link: "live", sure: true, follow: true, moving: false, at: now, ...known }, now);
  assert.deepEqual(state({}), { state: "live", quiet: 0 });
  assert.deepEqual(state({ at: now - 3_600_000 }), { state: "live", quiet: now - 3_600_000 });
  assert.equal(state({ at: now - 3_600_000, moving: true }).quiet, 0);
  assert.deepEqual(state({ follow: false, at: 1 }), { state: "back", quiet: 0 });
  assert.equal(state({ sure: false, follow: false }).state, "catching up");
  assert.equal(state({ link: "offline", follow: false }).state, "offline");
  assert.equal(state({ link: "gone", sure: false }).state, "gone");
});

test("a moment is said as one says it: today by the time, this week by the day, else by the date", () => {
  const now = new Date(2026, 11, 3, 9, 0).getTime(); // a Thursday
  const at = (/** @type {number} */ day, /** @type {number} */ month = 11) => momentWords(new Date(2026, month, day, 18, 5).getTime(), now, "en");
  assert.equal(at(1), "Tuesday 18:05");
  assert.equal(at(26, 10), "November 26 18:05");
  assert.equal(momentWords(new Date(2026, 11, 3, 0, 4).getTime(), now, "en"), "00:04");
});
