/** A lineup in which a number would stand on the floor twice. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { twiceIn } from "../../static/js/team/twice.js";

const POSITIONS = ["1", "2", "3", "4", "5"];
const squad = ["12", "5", "7", "3", "9"].map((number) => ({ id: `id ${number}`, number }));
const lineup = (/** @type {string[]} */ ...numbers) =>
  Object.fromEntries(POSITIONS.map((place, i) => [place, numbers[i] ? `id ${numbers[i]}` : null]));
const numbers = (/** @type {Record<string, string | null>} */ places) => POSITIONS.map((place) => places[place]?.slice(3) ?? "");

test("a position nobody plays is a second 5 where 5 plays elsewhere, and two answers are offered", () => {
  const found = twiceIn(lineup("5", "7"), squad, POSITIONS);
  assert.deepEqual([found?.place, found?.at], ["5", "1"]);
  assert.deepEqual(found?.answers.map(({ who, places }) => [who.number, ...numbers(places)]), [
    ["9", "5", "7", "", "", "9"], // with 3 there, position 3 would be a second 3
    ["5", "", "7", "", "", "5"],
  ]);
});

test("with nobody on the bench a move alone is offered", () => {
  const found = twiceIn(lineup("5"), squad.slice(1, 2), POSITIONS);
  assert.deepEqual(found?.answers.map(({ who, places }) => [who.number, ...numbers(places)]), [["5", "", "", "", "", "5"]]);
});

test("nothing is said of a lineup without a number twice", () => {
  assert.equal(twiceIn(lineup(), squad, POSITIONS), null);
  assert.equal(twiceIn(lineup("5", "7", "3", "9", "12"), squad, POSITIONS), null);
  assert.equal(twiceIn(lineup("", "", "3", "", "5"), squad, POSITIONS), null, "on the position of one's number");
  assert.equal(twiceIn({ ...lineup("5"), 1: "somebody who left" }, squad, POSITIONS), null);
});
