/** Strokes: short enough for a message, the same when read again, and done once however often they are sent. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { apply, bounded, decode, encode, keyOf, POINTS_MAX, replaced, seen, simplify, touched } from "../../static/js/ink/model.js";
import { dice, seeds } from "./some.js";

/**
 * @typedef {import("../../static/js/ink/model.js").InkPoint} InkPoint
 * @typedef {import("../../static/js/ink/model.js").Op} Op
 * @typedef {import("../../static/js/ink/model.js").Pages} Pages
 */

/** A hand's way over the floor: turns slowly, presses unevenly. @param {number} seed @param {number} [count] */
function scribble(seed, count = 300) {
  const { between } = dice(seed);
  let [x, y, way, pressure] = [0, 500, 0, 50];
  return Array.from({ length: count }, () => {
    way += between(-0.5, 0.5);
    [x, y] = [x + 6 * Math.cos(way), y + 6 * Math.sin(way)];
    pressure = Math.min(100, Math.max(1, pressure + between(-8, 8)));
    return /** @type {InkPoint} */ ([x, y, pressure].map((value) => Math.round(value) || 0));
  });
}

const AT = { chain: "c", line: [["pass:top"]] };
/** @param {string} s @param {object} [at] @returns {Op} */
const put = (s, at = AT) => /** @type {Op} */ ({ do: "put", ...at, s, tool: 0, colour: 0, p: [0, 0, 50] });
/** @param {"rub" | "back"} what @param {...string} ss @returns {Op} */
const rub = (what, ...ss) => ({ do: what, ...AT, ss });
/** @param {Op[]} ops */
const after = (ops) => ops.reduce(apply, /** @type {Pages} */ (new Map()));
/** @param {Pages} pages */
const names = (pages) => seen(pages.get(keyOf(AT))).map(({ id }) => id);

test("a straight line is its two ends", () => {
  const straight = Array.from({ length: 200 }, (_, i) => /** @type {InkPoint} */ ([5 * i, 3 * i, 50]));
  assert.deepEqual(simplify(straight), [[0, 0, 50], [995, 597, 50]]);
});

test("however long a stroke is, it fits what a message may hold", () => {
  for (const seed of seeds(20)) {
    const kept = bounded(scribble(seed, 5000));
    assert.ok(kept.length > 100 && kept.length <= 240, `seed ${seed}: ${kept.length} points`);
  }
  assert.equal(POINTS_MAX, 240);
});

test("points are the same once they have crossed the wire", () => {
  for (const seed of seeds(50)) {
    const drawn = scribble(seed);
    assert.deepEqual(decode(encode(drawn)), drawn);
    assert.deepEqual(decode(encode(drawn.slice(100), drawn[99]), drawn[99]), drawn.slice(100));
  }
});

test("doing the same twice is doing it once", () => {
  const ops = [put("a"), put("b"), rub("rub", "a"), rub("back", "a"), rub("rub", "b")];
  assert.deepEqual(names(after([...ops, ...ops])), ["a"]);
});

test("ink stays with the step it was drawn on", () => {
  const other = { chain: "c", line: [["pass:top"], ["shot"]] };
  const pages = after([put("a"), put("b", other)]);
  assert.deepEqual(names(pages), ["a"]);
  assert.deepEqual(seen(pages.get(keyOf(other))).map(({ id }) => id), ["b"]);
  assert.deepEqual(seen(pages.get("nothing drawn there")), []);
});

test("what the server says of a chain is what is seen, and what it does not know can be brought back", () => {
  const before = after([put("mine"), put("a"), put("elsewhere", { chain: "d", line: [] })]);
  const told = replaced(before, /** @type {any} */ ({ chain: "c", pages: [{ line: AT.line, strokes: [["a", 0, 0, [1, 2, 3]], ["b", 1, 2, [0, 0, 50, 5, 5, 0]]] }] }));
  assert.deepEqual(names(told), ["a", "b"]);
  assert.deepEqual(told.get(keyOf(AT))?.strokes.at(-1)?.points, [[0, 0, 50], [5, 5, 50]]);
  assert.deepEqual(names(apply(told, rub("back", "mine"))), ["mine", "a", "b"]);
  assert.equal(told.get(keyOf({ chain: "d", line: [] })), before.get(keyOf({ chain: "d", line: [] })));
});

test("a rubber takes the strokes within its reach, between their points too", () => {
  /** @param {string} id @param {InkPoint[]} points */
  const stroke = (id, points, gone = false) => ({ id, tool: 0, colour: 0, points, gone });
  const all = [
    stroke("across", [[-100, 0, 50], [100, 0, 50]]),
    stroke("dot", [[0, 9, 50]]),
    stroke("far", [[-100, 30, 50], [100, 30, 50]]),
    stroke("gone", [[0, 0, 50]], true),
  ];
  assert.deepEqual(touched(all, [0, 0], 10).map(({ id }) => id), ["across", "dot"]);
  assert.deepEqual(touched(all, [111, 0], 10).map(({ id }) => id), []);
});
