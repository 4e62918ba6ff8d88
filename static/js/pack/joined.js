/** A lane choice of a player's own with a ball action over it, put together of the two: an estimate of what the server makes. */

/**
 * @typedef {import("./pack.js").Pack} Pack
 * @typedef {import("../state/wire.js").Timeline} Timeline
 * @typedef {import("../state/wire.js").Standing} Standing
 */

/**
 * The cutter whom the ball action moves on, and who so runs once; null if nobody. As in the engine, he runs twice
 * where the action is his own cut or screen, or names him and brings him no ball.
 * @param {Pack} pack @param {ReturnType<Pack["step"]>[]} steps @param {number} action  the ball action
 * @param {Standing} before @returns {number | null}
 */
export function runOnce(pack, [first, second], action, { cutter, at: from }) {
  if (!second || cutter === null) return null;
  const [here, there] = [first.after.at[cutter], second.after.at[cutter]];
  const moved = Object.keys(from).filter((number) => first.after.at[number] !== from[number]);
  if (moved.join() !== String(cutter) || here === there) return null;
  const does = (/** @type {typeof first} */ step) => step.who.find(([number]) => number === cutter)?.[1] ?? "";
  if ([first, second].some((step) => pack.own.includes(does(step)))) return null;
  // Who is named and has the ball then was handed it, and is told of that.
  return pack.actions[action].spot === here ? null : cutter;
}

/**
 * Two timelines, one over the other: who is under way finishes first, and a pass waits for its receiver.
 * @param {Timeline} first @param {Timeline} second
 * @param {number | null} once  who runs from where the first begins to where the second ends, and at once
 * @returns {Timeline}
 */
export function joined(first, second, once) {
  /** @type {Record<string, number>} */
  const free = {};
  const whole = first.runs.flatMap((run) => straight(run, second.runs.filter(([player]) => player === once && run[0] === once)));
  const others = second.runs.filter(([player]) => player !== once);
  for (const [player, start, lasts] of whole) free[player] = Math.max(free[player] ?? 0, start + lasts);
  const waits = [...second.ball.map(([, start, , , to]) => (free[to] ?? 0) - start), 0];
  const shift = Math.max(first.ready, ...waits);
  const shifted = (/** @type {number} */ t) => Math.round((t + shift) * 100) / 100;
  const runs = [...whole, ...others.map(([player, start, lasts, path, style]) =>
    /** @type {typeof second.runs[number]} */ ([player, Math.max(shifted(start), free[player] ?? 0), lasts, path, style]))];
  const ends = runs.map(([, start, lasts]) => Math.round((start + lasts) * 100) / 100);
  return {
    ready: shifted(second.ready),
    end: Math.max(shifted(second.end), ...ends),
    runs: runs.sort((a, b) => a[1] - b[1]),
    ball: [...first.ball, ...second.ball.map(([kind, from, to, giver, taker]) => /** @type {typeof second.ball[number]} */ ([kind, shifted(from), shifted(to), giver, taker]))],
  };
}

/**
 * A run with the one after it as one: straight there, as fast as both together.
 * @param {Timeline["runs"][number]} run @param {Timeline["runs"]} after @returns {Timeline["runs"]}
 */
function straight(run, [after]) {
  if (!after) return [run];
  const ends = (/** @type {string} */ path) => (path.match(/-?\d+/g) ?? []).map(Number);
  const [one, two] = [ends(run[3]), ends(after[3])];
  const [a, b, c] = [one.slice(0, 2), one.slice(-2), two.slice(-2)];
  const far = (/** @type {number[]} */ p, /** @type {number[]} */ q) => Math.hypot(p[0] - q[0], p[1] - q[1]);
  const part = (/** @type {number} */ t) => a.map((value, i) => Math.round(value + t * (c[i] - value))).join(" ");
  const lasts = ((run[2] + after[2]) * far(a, c)) / Math.max(far(a, b) + far(b, c), 1);
  return [[run[0], run[1], Math.round(lasts * 100) / 100, `M${part(0)}C${part(1 / 3)} ${part(2 / 3)} ${part(1)}`, after[4]]];
}
