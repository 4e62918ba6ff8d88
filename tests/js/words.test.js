/** Texts by key: slots, numbers, plurals and lists. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { decimal, fill, listed, sayer, whole } from "../../static/js/words/sayer.js";
import { sayTeam } from "../../static/js/words/team-words.js";
import { dice, seeds } from "./some.js";

test("lists are those of Unicode CLDR", () => {
  // British English has no comma before the last.
  for (const seed of seeds(60)) {
    const die = dice(seed);
    const names = Array.from({ length: 1 + die.below(5) }, () => die.of(["1", "12", "Ada", "left wing"]));
    assert.equal(listed(names), new Intl.ListFormat("en-GB", { type: "conjunction" }).format(names));
    assert.equal(listed(names, "or"), new Intl.ListFormat("en-GB", { type: "disjunction" }).format(names));
  }
});

test("a number chooses the form of its text and stands in groups of digits", () => {
  assert.equal(sayTeam("positions_count", { n: 1 }), "1 situation");
  assert.equal(sayTeam("positions_count", { n: 12345 }), "12\u202f345 situations");
  assert.equal(whole(1234567), "1\u202f234\u202f567");
  assert.equal(decimal(3.14159, 2), "3.14");
});

test("only slots are filled, each with what is given for it", () => {
  assert.equal(fill("{a} to {b}, {n}", { a: "{b}", b: 7, n: "15" }), "{b} to 7, 15");
  assert.equal(sayer("none", { group: { key: "{p} goes" } })("group.key", { p: "Ada" }), "Ada goes");
  assert.throws(() => sayTeam("hands.none_such"), /no text team\.hands/);
});
