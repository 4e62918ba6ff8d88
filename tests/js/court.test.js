/** The floor on a screen: where a place is seen, what finds room to be tapped, and what a drag points at. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { DRAG, pick } from "../../static/js/court/aim.js";
import { arrange } from "../../static/js/court/layout.js";
import { inside, project } from "../../static/js/court/projection.js";
import { blank, positionKey, receive } from "../../static/js/state/state.js";
import { passes, targets } from "../../static/js/court/targets.js";
import { chains, dice, seeds } from "./some.js";

/**
 * @typedef {import("../../static/js/state/wire.js").Point} Point
 * @typedef {import("../../static/js/state/wire.js").Offer} Offer
 */

/** A phone upright, tablets, a projector. @type {[number, number][]} */
const SCREENS = [[390, 520], [700, 760], [820, 900], [1600, 1000]];
const VIEWS = [false, true].flatMap((turned) => [false, true].map((mirrored) => ({ turned, mirrored })));
const near = (/** @type {Point} */ a, /** @type {Point} */ b, within = 1e-6) => Math.hypot(a[0] - b[0], a[1] - b[1]) <= within;

test("a place on the screen is the place on the floor it stands for", () => {
  const { floor } = chains[0];
  for (const [width, height] of SCREENS) {
    for (const view of VIEWS.flatMap((each) => [each, { ...each, wide: true }, { ...each, big: true }])) {
      const seen = project(width, height, floor.box, view);
      const [a, b, c, d, e, f] = (seen.matrix.match(/-?[\d.e-]+/g) ?? []).map(Number);
      for (const place of Object.values(floor.spots)) {
        const [x, y] = seen.px(place);
        assert.ok(near(seen.cm([x, y]), place, 1e-6));
        assert.ok(near([a * place[0] + c * place[1] + e, b * place[0] + d * place[1] + f], [x, y]), "marks are drawn where players stand");
        assert.ok(x >= 0 && x <= width && y >= 0 && y <= height, `${place} is on a screen of ${width} by ${height}`);
      }
    }
  }
});

test("turned, the basket is at the bottom; mirrored, left and right change over, and nothing else", () => {
  const { box } = chains[0].floor;
  const [plain, mirrored, turned] = VIEWS.map((view) => project(700, 760, box, view));
  const [[x, y], [mx, my], [tx, ty]] = [plain, mirrored, turned].map(({ px }) => px([300, 100]));
  assert.ok(y < 380 && ty > 380 && Math.abs(x + tx - 700) < 1e-6, "as from the other side of the floor");
  assert.ok(Math.abs(x + mx - 700) < 1e-6 && my === y && mx !== x);
  for (const seen of [plain, mirrored, turned]) {
    const [from, to] = [seen.px([0, 0]), seen.px([100, 50])];
    const along = seen.turn([100, 50]).map((v) => v * seen.scale);
    assert.ok(near([to[0] - from[0], to[1] - from[1]], [along[0], along[1]]));
  }
});

test("who runs out of the picture waits at its edge", () => {
  const seen = project(700, 760, chains[0].floor.box, VIEWS[0]);
  for (const place of /** @type {Point[]} */ ([[-500, -500], [9000, 20], [350, 9000]])) {
    const [x, y] = inside(seen, place);
    assert.ok(x >= seen.radius && x <= 700 - seen.radius && y >= seen.radius && y <= 760 - seen.radius);
  }
  assert.deepEqual(inside(seen, [350, 300]), [350, 300]);
});

test("whatever finds room covers nothing, sticks out nowhere, and is near where it should be", () => {
  for (const seed of seeds(300)) {
    const { between, below, chance } = dice(seed);
    const [width, height] = [between(200, 900), between(200, 900)];
    const somewhere = () => /** @type {Point} */ ([between(0, width), between(0, height)]);
    const obstacles = Array.from({ length: below(8) }, () => ({ x: between(0, width), y: between(0, height), side: between(20, 80) }));
    const wishes = Array.from({ length: 1 + below(14) }, () => ({
      at: somewhere(), side: between(40, 70), reach: between(0, 150), ...(chance(0.5) ? { lean: /** @type {Point} */ ([0, 1]) } : {}),
    }));
    const found = arrange(wishes, obstacles, width, height);
    const taken = [...obstacles];
    wishes.forEach(({ at, side, reach }, i) => {
      const place = found[i];
      if (!place) return;
      const [x, y] = place;
      const why = `seed ${seed}, wish ${i}`;
      for (const box of taken) assert.ok(Math.max(Math.abs(x - box.x), Math.abs(y - box.y)) >= (side + box.side) / 2, why);
      assert.ok(x >= side / 2 - 1e-6 && x <= width - side / 2 + 1e-6 && y >= side / 2 - 1e-6 && y <= height - side / 2 + 1e-6, why);
      assert.ok(Math.hypot(x - at[0], y - at[1]) <= reach + 6, why);
      taken.push({ x, y, side });
    });
  }
});

test("what has room where it should be is there, and what has none is left out", () => {
  const wish = { at: /** @type {Point} */ ([100, 100]), side: 48, reach: 30 };
  assert.deepEqual(arrange([wish], [], 400, 400), [[100, 100]]);
  assert.deepEqual(arrange([wish], [{ x: 100, y: 100, side: 300 }], 400, 400), [null]);
  const [beside] = arrange([{ ...wish, lean: /** @type {Point} */ ([1, 0]), reach: 90 }], [{ x: 100, y: 100, side: 48 }], 400, 400);
  assert.ok(beside && beside[0] > 140 && Math.abs(beside[1] - 100) < 1e-6, "it gives way to the side it leans to");
});

/** Everything that was on offer in the chains, as a board has it. */
function* moments() {
  for (const { floor, start, steps, offers } of chains) {
    for (const [at, given] of offers.entries()) {
      const standing = at ? steps[at - 1].after : start;
      const told = receive({ ...blank(), known: true, seq: 1, start: standing }, { ...structuredClone(given), t: "offers", seq: 1 });
      const places = Object.fromEntries(Object.entries(standing.at).map(([player, spot]) => [player, floor.spots[spot]]));
      yield { floor, standing, places, offers: told.menus.get(positionKey(standing))?.offers ?? [] };
    }
  }
}

test("on every screen what can be tapped is large enough, apart, and off players and corner buttons", () => {
  for (const { floor, standing, places, offers } of moments()) {
    assert.ok(offers.length > 3);
    for (const [[width, height], view] of SCREENS.flatMap((screen) => VIEWS.map((each) => /** @type {const} */ ([screen, each])))) {
      const seen = project(width, height, floor.box, view);
      const found = targets(offers, standing, places, floor, seen, false);
      const disc = Math.max(seen.radius * 2, seen.hit);
      const boxes = [
        ...Object.values(places).map((place) => ({ at: seen.px(place), side: disc })),
        ...[32, width - 32].map((x) => ({ at: /** @type {Point} */ ([x, view.turned ? 32 : height - 32]), side: 64 })),
      ];
      for (const { at, side, offer } of found) {
        assert.ok(side >= 48, `${offer.a} is ${side} pixels wide`);
        for (const box of boxes) {
          const apart = Math.max(Math.abs(at[0] - box.at[0]), Math.abs(at[1] - box.at[1]));
          assert.ok(apart >= (side + box.side) / 2, `${offer.a} on ${width} by ${height}`);
        }
        boxes.push({ at, side });
      }
      const shot = offers.find(({ act }) => act === "shot");
      if (shot) assert.ok(found.some(({ offer }) => offer === shot), `a shot can be tapped on ${width} by ${height}`);
    }
  }
});

test("a mate's disc stands for one thing, and that goes to him", () => {
  for (const { standing, offers } of moments()) {
    const found = passes(offers, standing);
    for (const [mate, offer] of found) assert.ok(offer.to === mate && mate !== standing.ball, offer.a.join(" "));
    const direct = offers.filter(({ a, act }) => a.length === 1 && act === "pass");
    for (const offer of direct) assert.equal(found.get(Number(offer.to))?.act, "pass");
  }
});

test("what is under the finger goes before what lies further on, though that may be nearer to the drag's direction", () => {
  const aim = (/** @type {Point} */ at) => ({ offer: /** @type {any} */ ({}), by: 1, at, element: /** @type {any} */ (null) });
  const [here, beyond] = [aim([100, 24]), aim([140, 0])];
  assert.equal(pick([beyond, here], 1, [0, 0], [100, 0]), here);
  assert.equal(pick([beyond, here], 1, [0, 0], [60, 0]), beyond);
});

test("a drag means what is under the finger, or what it points along, of the player it began at", () => {
  for (const { floor, standing, places, offers } of moments()) {
    const seen = project(820, 900, floor.box, VIEWS[0]);
    const aims = targets(offers, standing, places, floor, seen, false).map(({ offer, by, at }) => ({ offer, by, at, element: /** @type {any} */ (null) }));
    for (const aim of aims) {
      const origin = seen.px(places[aim.by]);
      const length = Math.hypot(aim.at[0] - origin[0], aim.at[1] - origin[1]);
      assert.equal(pick(aims, aim.by, origin, origin), null);
      if (length >= DRAG) assert.equal(pick(aims, aim.by, origin, aim.at)?.offer, aim.offer);
      const lonely = pick([aim], aim.by, origin, [origin[0] + ((aim.at[0] - origin[0]) * 40) / length, origin[1] + ((aim.at[1] - origin[1]) * 40) / length]);
      assert.equal(lonely?.offer, aim.offer, "a short drag in its direction is enough");
      assert.equal(pick([aim], aim.by, origin, [2 * origin[0] - aim.at[0], 2 * origin[1] - aim.at[1]]), null, "away from it is not");
      assert.equal(pick([aim], aim.by === 1 ? 2 : 1, origin, aim.at), null);
    }
  }
});
