/**
 * Everybody back on spots, out of a pack: it lists the sets of five spots a recovery may lead to, and the one that
 * takes the least running, in straight lines, is looked for among them.
 */

import { at } from "../pack/columns.js";
import { PACES, THERE } from "../steps/figures.js";
import { meanSpeed } from "../steps/speed.js";

/**
 * @typedef {import("../pack/pack.js").Pack} Pack
 * @typedef {import("../state/wire.js").Point} Point
 * @typedef {import("../state/wire.js").StepWire} StepWire
 */

/**
 * The spot each player goes to, and how far all of them run together, centimetres.
 * @param {Pack} pack @param {Record<string, Point>} spots  centimetres @param {Record<string, Point>} where  by player
 */
export function nearest(pack, spots, where) {
  const players = Object.keys(where).sort();
  const far = players.map((player) => pack.spots.map((spot) => {
    const [x, y] = spots[spot] ?? [Infinity, Infinity];
    return Math.hypot(where[player][0] - x, where[player][1] - y);
  }));
  /** The least each of the players still to be placed can run: no choice does better. */
  const rest = far.map(() => 0).concat(0);
  for (let i = players.length - 1; i >= 0; i--) rest[i] = rest[i + 1] + Math.min(...far[i]);
  let best = { total: Infinity, spots: /** @type {number[]} */ ([]) };

  /** @param {number[]} free @param {number[]} taken @param {number} total */
  const place = (free, taken, total) => {
    const i = taken.length;
    if (total + rest[i] >= best.total) return;
    if (i === players.length) return void (best = { total, spots: taken });
    for (const spot of free) place(free.filter((other) => other !== spot), [...taken, spot], total + far[i][spot]);
  };
  for (let i = 0; i < pack.recover.low.length; i++) {
    const mask = at(pack.recover.low, i) | (at(pack.recover.high, i) << 7);
    place(pack.spots.map((_, bit) => bit).filter((bit) => (mask >> bit) & 1), [], 0);
  }
  return {
    total: best.total,
    spots: Object.fromEntries(players.map((player, i) => [player, pack.spots[best.spots[i]]])),
  };
}

/** The text form. @param {Record<string, Point>} where @param {Record<string, string>} spots */
export function recoveryText(where, spots) {
  return `recover:${Object.keys(spots).sort().map((n) => `${n}=${spots[n]}@${where[n][0]},${where[n][1]}`).join(";")}`;
}

/** What a text form says. @param {string} text */
export function readRecovery(text) {
  /** @type {Record<string, Point>} */
  const where = {};
  /** @type {Record<string, string>} */
  const spots = {};
  for (const [, n, spot, x, y] of text.matchAll(/([1-5])=([a-z_]+)@(-?\d+),(-?\d+)/g)) {
    where[n] = [Number(x), Number(y)];
    spots[n] = spot;
  }
  return { where, spots };
}

/**
 * The step: everybody runs straight to his spot.
 * @param {Record<string, Point>} where @param {Record<string, string>} spots @param {Record<string, Point>} places  centimetres
 * @param {number} ball  who has it @returns {StepWire}
 */
export function recoveryStep(where, spots, places, ball) {
  /** @type {StepWire["tl"]["runs"]} */
  const runs = [];
  for (const [player, spot] of Object.entries(spots)) {
    const [[x, y], [to, down]] = [where[player], places[spot]];
    const length = Math.hypot(to - x, down - y);
    if (length > THERE) runs.push([Number(player), 0, Math.round((length / meanSpeed(PACES.run, length / 100))) / 100, `M${x} ${y}L${to} ${down}`, "cut"]);
  }
  const end = Math.max(0, ...runs.map((run) => run[2]));
  return {
    a: [recoveryText(where, spots)],
    say: [["recover", {}]],
    who: Object.entries(spots).map(([player, spot]) => {
      const p = Number(player);
      return [p, runs.some(([who]) => who === p) ? "recover" : "stay", { p, s: spot }];
    }),
    ball: ["hold", { p: ball }],
    tl: { ready: end, end, runs, ball: [] },
    after: { at: spots, ball, cutter: null, over: false },
  };
}
