/** A chain on the clock: nobody jumps, nothing begins too early, and what is drawn of it is what it is. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { drifted, poseOf, sampleTimes } from "../../static/js/steps/clip.js";
import { ballAt, depthAt, lying, presence, resting, where } from "../../static/js/steps/film.js";
import { pointAt, progress, route, timeFor } from "../../static/js/steps/path.js";
import { compose, extend, standing, stood } from "../../static/js/steps/schedule.js";
import { readScript } from "../../static/js/steps/drawn-text.js";
import { scriptStep } from "../../static/js/steps/drawn-step.js";
import { strayed } from "../../static/js/steps/approach.js";
import { STRAY } from "../../static/js/steps/figures.js";
import { chains, dice, seeds } from "./some.js";

/**
 * @typedef {import("../../static/js/state/wire.js").Point} Point
 * @typedef {import("../../static/js/steps/film.js").Film} Film
 */

const apart = (/** @type {ArrayLike<number>} */ a, /** @type {ArrayLike<number>} */ b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
/** Faster than this nobody runs, and no ball flies, centimetres a second. */
const FASTEST = { player: 800, ball: 2000 };
const TICK = 0.02;

/** Each chain, tapped at moments of its own. @returns {Generator<{film: Film, chain: import("./some.js").Played, gaps: (number | undefined)[], said: string}>} */
function* films() {
  for (const [i, chain] of chains.entries()) {
    for (const seed of seeds(6)) {
      const { of, between } = dice(100 * i + seed);
      const gaps = chain.steps.map(() => of([undefined, undefined, Infinity, 0, between(0.2, 3)]));
      const film = compose(standing(chain.start, chain.floor.spots), chain.steps, gaps);
      yield { film, chain, gaps, said: `${chain.formation}, gaps ${gaps}` };
    }
  }
}

test("nobody jumps, and neither does the ball, at whatever moments a chain is tapped", () => {
  for (const { film, said } of films()) {
    for (const player of film.players) {
      let last = where(film, player, 0);
      for (let t = TICK; t < film.end + 0.5; t += TICK) {
        const now = where(film, player, t);
        assert.ok(apart(now, last) <= FASTEST.player * TICK, `${player} at ${t.toFixed(2)} s, ${said}`);
        last = now;
      }
    }
    let last = ballAt(film, 0);
    for (let t = TICK; t < film.end + 0.5; t += TICK) {
      const now = ballAt(film, t);
      assert.ok(Math.hypot(now.x - last.x, now.y - last.y) <= FASTEST.ball * TICK, `the ball at ${t.toFixed(2)} s, ${said}`);
      if (now.holder) assert.ok(apart([now.x, now.y], where(film, now.holder, t)) < 1e-9);
      last = now;
    }
  }
});

test("at its end a chain leaves everybody on his spot and the ball with who has it", () => {
  for (const { film, chain, said } of films()) {
    for (const depth of [0, 3, chain.steps.length]) {
      const { at } = depth ? chain.steps[depth - 1].after : chain.start;
      const places = resting(film, depth);
      for (const player of film.players) assert.ok(apart(places[player], chain.floor.spots[at[player]]) <= 1, `${player} after ${depth}, ${said}`);
    }
    const { after } = chain.steps[chain.steps.length - 1];
    assert.equal(ballAt(film, film.end + 1).holder, after.ball);
  }
});

test("steps begin in order, and one that waits for all begins when all have arrived", () => {
  for (const { film, gaps, said } of films()) {
    film.cues.forEach(({ start, ready, end }, i) => {
      assert.ok(start <= ready && ready <= end && end <= film.end, said);
      const before = film.cues[i - 1];
      if (!before) return;
      assert.ok(start >= before.start, said);
      const arrived = Math.max(...film.cues.slice(0, i).map((cue) => cue.end));
      if (gaps[i] === Infinity) assert.ok(start >= arrived - 1e-9, said);
      assert.equal(depthAt(film, start + 1e-3) >= i + 1, true);
    });
    assert.equal(depthAt(film, 0), 0);
    assert.equal(depthAt(film, film.end + 1), film.cues.length);
  }
});

test("who stands elsewhere than his way begins runs from where he stands to where it ends", () => {
  for (const { formation, start, floor, steps } of chains) {
    const off = Object.fromEntries(Object.entries(start.at).map(([player, spot]) => [player, /** @type {Point} */ ([floor.spots[spot][0] + 40, floor.spots[spot][1] - 30])]));
    const film = compose(standing({ ...start, off }, floor.spots), steps.slice(0, 1));
    assert.ok(Object.values(film.runs).flat().length > 0);
    for (const player of film.players) {
      for (const { t0, t1, path } of film.runs[player]) {
        assert.ok(apart(where(film, player, t0), off[player]) < 1e-6, `${formation}: ${player} does not jump`);
        assert.ok(apart(where(film, player, t1), pointAt(path, path.length)) < 1e-6, `${formation}: ${player} arrives`);
        break;
      }
    }
  }
});

test("a film that grows step by step is the film of the whole, and the shorter one stays as it was", () => {
  for (const { film, chain, gaps } of films()) {
    let grown = standing(chain.start, chain.floor.spots);
    chain.steps.forEach((step, i) => {
      const before = JSON.stringify(grown);
      const next = extend(grown, step, gaps[i]);
      assert.equal(JSON.stringify(grown), before);
      grown = next;
    });
    assert.deepEqual(grown, film);
  }
});

test("stopped at any time, everybody stands where he was and the ball is with who had it", () => {
  for (const { film } of films()) {
    const t = film.end * 0.6;
    const places = Object.fromEntries(film.players.map((player) => [player, where(film, player, t)]));
    const still = stood(film, t, places);
    for (const player of film.players) assert.deepEqual(where(still, player, 5), places[player]);
    const { holder } = ballAt(film, t);
    if (holder) assert.equal(ballAt(still, 0).holder, holder);
    assert.equal(still.end, 0);
  }
});

test("drawn from its samples, a clip is within a few centimetres of what it is", () => {
  for (const { film, said } of films()) {
    const clip = { film, from: film.end * 0.1, span: film.end * 0.8, rate: 1, began: 0, drift: { 1: { x: 60, y: -40, open: 0 } }, running: true };
    const times = sampleTimes(clip, clip.span);
    for (const [key, all] of Object.entries(times)) {
      assert.ok(all.every((t, i) => i === 0 || t > all[i - 1]), "in order");
      assert.ok(all[0] === 0 && Math.abs(all[all.length - 1] - clip.span) <= 0.001, "from beginning to end");
      for (let i = 1; i < all.length; i++) {
        const middle = (all[i - 1] + all[i]) / 2;
        const [a, b, there] = [all[i - 1], all[i], middle].map((t) => drifted(clip, key, t));
        const off = Math.hypot((a.x + b.x) / 2 - there.x, (a.y + b.y) / 2 - there.y);
        assert.ok(off <= 8, `${key} is off by ${off.toFixed(1)} cm at ${middle.toFixed(2)} s, ${said}`);
      }
    }
  }
});

test("what is on the screen glides into what is to be shown", () => {
  const [{ film }] = films();
  const clip = { film, from: 0, span: film.end, rate: 1, began: 0, drift: { 1: { x: 60, y: -40, open: 0 } }, running: true };
  const off = (/** @type {number} */ t) => drifted(clip, "1", t).x - poseOf(film, "1", t).x;
  assert.equal(off(0), 60);
  assert.ok([0.05, 0.1, 0.2, 0.29].every((t, i, all) => off(t) < (i ? off(all[i - 1]) : 60) && off(t) > 0));
  assert.equal(off(0.3), 0);
  assert.deepEqual(drifted(clip, "2", 0), poseOf(film, "2", 0));
});

test("what is drawn comes in, moves, and stays when play goes on by rule, until the next drawing", () => {
  const { start, floor, steps } = chains[0];
  const text = "script:as=free;at=1,0,735,2,-520,560,3,506,506,4,-520,300,5,700,0,x1,0,640;ball=1;go=x1,c,0,100,200,400;do=l,60,80,1,40,300";
  const drawn = scriptStep(/** @type {any} */ (readScript(text)), start, floor.spots);
  const film = compose(standing(start, floor.spots), [drawn]);
  const { set = 0, end } = film.cues[0];
  assert.equal(presence(film, "x1", end), 1);
  assert.deepEqual(where(film, "x1", end).map(Math.round), [200, 400]);
  assert.ok(apart(where(film, 4, set), [-520, 300]) < 1, "everybody first goes to where it begins");
  assert.deepEqual(lying(film, end + 1), [40, 300]);
  const still = stood(film, end, resting(film, 1));
  assert.deepEqual([ballAt(still, 0).x, ballAt(still, 0).y], [40, 300]);
  assert.equal(presence(still, "x1", 0), 1);
  const on = compose(standing(start, floor.spots), [drawn, { ...steps[0], a: ["recover:"], tl: { ready: 0, end: 0, runs: [], ball: [] } }]);
  assert.equal(presence(on, "x1", on.end + 1), 1);
  const without = scriptStep(/** @type {any} */ (readScript(text.replace("x1,0,640;", "").replace(/go=x1[^;]*;/, "").replace(",700,0,", ",700,0;"))), start, floor.spots);
  const after = compose(on, [without]);
  assert.equal(presence(after, "x1", after.end + 1), 0);
});

test("a runner speeds up, runs and slows down, and a share of the way is a share of the time", () => {
  const shares = Array.from({ length: 101 }, (_, i) => i / 100);
  for (const u of shares) assert.ok(Math.abs(timeFor(progress(u)) - u) < 1e-9);
  const paces = shares.slice(1).map((u, i) => progress(u) - progress(shares[i]));
  assert.ok(paces.every((pace) => pace > 0));
  assert.ok(paces[0] < paces[50] / 5 && paces[99] < paces[50] / 5);
  assert.deepEqual([progress(-1), progress(2), timeFor(-1), timeFor(2)], [0, 1, 0, 1]);
});

test("a place on a path is as far along it as was run", () => {
  const path = route("M0 0L300 0L300 400C300 500 200 500 100 500");
  assert.deepEqual([pointAt(path, -5), pointAt(path, 0), pointAt(path, 150), pointAt(path, 500)], [[0, 0], [0, 0], [150, 0], [300, 200]]);
  assert.deepEqual(pointAt(path, 9999), [100, 500]);
  let run = 0;
  for (let d = 1; d <= path.length; d++) run += apart(pointAt(path, d), pointAt(path, d - 1));
  assert.ok(Math.abs(run - path.length) < 2);
  assert.deepEqual(pointAt(route("M7 8"), 100), [7, 8]);
});

test("whoever stands elsewhere is where a step begins when it does", () => {
  const { t0, t1, path } = strayed([10.4, 20.6], [300, 400], 5, 2);
  assert.deepEqual([t0, t1], [5 - STRAY, 5]);
  assert.deepEqual([pointAt(path, 0), pointAt(path, path.length)], [[10, 21], [300, 400]]);
});

/** A step made for a rule of the clock. @param {Partial<import("../../static/js/state/wire.js").Timeline>} tl */
const made = (tl) => /** @type {import("../../static/js/state/wire.js").StepWire} */ (/** @type {unknown} */ ({
  a: ["made"], after: {}, tl: { ready: 0, end: 0, runs: [], ball: [], ...tl },
}));
/** @type {import("../../static/js/state/wire.js").Standing} */
const five = { at: { 1: "a", 2: "b", 3: "c", 4: "d", 5: "e" }, ball: 1, cutter: null, over: false };
/** @type {Record<string, Point>} */
const lineup = { a: [0, 700], b: [500, 500], c: [-500, 500], d: [700, 0], e: [-700, 0] };

test("a step waits until the ball has reached its handler, however early it is tapped", () => {
  const film = compose(standing(five, lineup), [
    made({ ready: 0.2, end: 1, ball: [["pass", 0, 1, 1, 2]] }),
    made({ ready: 1, end: 1.1, runs: [[2, 0.1, 1, "M500 500L700 0", "dribble"]] }),
  ]);
  assert.ok(Math.abs(film.cues[1].start - 0.9) < 1e-9);
});

test("a pass waits for a giver who starts late", () => {
  const film = compose(standing(five, lineup), [
    made({ end: 2, runs: [[1, 0, 2, "M0 700L100 700", "dribble"]] }),
    made({ ready: 1, end: 1, runs: [[1, 0, 0.4, "M100 700L150 700", "dribble"]], ball: [["pass", 0.5, 1, 1, 3]] }),
  ]);
  assert.ok(Math.abs(film.tosses[0].t0 - 2.5) < 1e-9);
  assert.ok(Math.abs(film.cues[1].ready - 3) < 1e-9);
});
