/** The squad's players on the five places. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { rosterOf, seated } from "../../static/js/state/roster.js";

const member = (/** @type {string} */ id, number = id, name = `Player ${id}`) => ({ id, number, name });

test("a place nobody is on goes by its own number, unless somebody of the squad wears that", () => {
  const roster = rosterOf({ 1: member("a", "4", "Ada"), 2: member("b", "17", "Bo") });
  assert.deepEqual([1, 2, 3, 4].map(roster.face), ["4", "17", "3", "P4"]);
  assert.deepEqual([1, 2, 3, 4].map(roster.label), ["4", "17", "3", "position 4"]);
  assert.deepEqual([1, 3].map(roster.nobody), [false, true]);
  const bench = [member("c", "3", "Cy")];
  assert.equal(rosterOf({ 1: member("a", "4", "Ada") }, { bench }).face(3), "P3", "who wears 3 sits on the bench");
  assert.equal(rosterOf({ 1: null }, { bench }).face(3), "3", "without a lineup the five go by their positions");
  assert.equal(roster.count, 2);
  assert.ok(![1, 2, 3].some(rosterOf({}).nobody), "without a squad the five are just numbers");
});

test("a typed digit means who wears it, and else the place", () => {
  const roster = rosterOf({ 1: member("a", "4"), 2: member("b", "17") });
  assert.deepEqual(["4", "5", "7", "0"].map(roster.placeOf), [1, 5, null, null]);
});

test("names are shown where they are wanted: the squad's, and else this device's own", () => {
  const squad = { 1: member("a", "4", "Ada") };
  const names = { 1: "Other", 2: "Bea" };
  assert.deepEqual([1, 2, 3].map(rosterOf(squad, { named: true, names }).label), ["Ada", "Bea", "3"]);
  assert.deepEqual([1, 2, 3].map(rosterOf(squad, { names }).name), ["", "", ""]);
});

test("who changes places with whom is shown before the server has answered", () => {
  const [ada, bo, cy] = [member("ada"), member("bo"), member("cy")];
  /** @param {...Record<string, string | null>} waiting */
  const after = (...waiting) => {
    const state = { squad: { 1: ada, 2: null }, bench: [bo, cy], pending: waiting.map((places) => ({ places })) };
    const { squad, bench } = seated(/** @type {any} */ (state));
    return [squad[1]?.id ?? null, squad[2]?.id ?? null, bench.map(({ id }) => id)];
  };
  assert.deepEqual(after(), ["ada", null, ["bo", "cy"]]);
  assert.deepEqual(after({ 1: "bo" }), ["bo", null, ["ada", "cy"]]);
  assert.deepEqual(after({ 2: "cy" }), ["ada", "cy", ["bo"]]);
  assert.deepEqual(after({ 1: null }), [null, null, ["bo", "cy", "ada"]]);
  assert.deepEqual(after({ 1: "bo" }, { 2: "ada" }), ["bo", "ada", ["cy"]]);
  assert.deepEqual(after({ 1: "somebody who has left" }), ["ada", null, ["bo", "cy"]]);
});
