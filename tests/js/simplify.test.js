/** A way drawn with a finger. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { POINTS_MAX, simplified } from "../../static/js/drawn/simplify.js";
import { dice, seeds } from "./some.js";

/** @typedef {import("../../static/js/state/wire.js").Point} Point */

test("a drawn way keeps its shape with few points", () => {
  const way = Array.from({ length: 151 }, (_, i) => /** @type {Point} */ ([4 * i, Math.round(300 * (1 - Math.abs(4 * i - 300) / 300) ** 2)]));
  const found = simplified(way);
  assert.deepEqual([found[0], found.at(-1)], [way[0], way.at(-1)]);
  assert.ok(found.length >= 3 && found.length <= 16, `${found.length} points`);
  const straight = simplified(Array.from({ length: 90 }, (_, i) => [i * 5, Math.sin(i) * 3]));
  assert.equal(straight.length, 2);
  assert.ok([...found, ...straight].flat().every(Number.isInteger));
});

test("however wild a way is, it is whole centimetres, few of them, from where it began to where it ended", () => {
  for (const seed of seeds(200)) {
    const { between, below } = dice(seed);
    const way = Array.from({ length: 2 + below(300) }, () => /** @type {Point} */ ([between(-750, 750), between(-150, 1400)]));
    const found = simplified(way);
    assert.ok(found.length >= 2 && found.length <= POINTS_MAX, `seed ${seed}`);
    assert.ok(found.flat().every(Number.isInteger), `seed ${seed}`);
    const ends = [way[0], way[way.length - 1]].map((place) => place.map(Math.round));
    assert.deepEqual([found[0], found[found.length - 1]], ends, `seed ${seed}`);
  }
});
