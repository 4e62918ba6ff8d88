/** Mean speeds of runs and of the ball. Pure. */

/**
 * @param {number[][]} pace  see `PACES` in figures.js
 * @param {number} metres
 * @returns {number} metres a second
 */
export function meanSpeed(pace, metres) {
  let [before, mean] = pace[0];
  for (const [length, next] of pace) {
    if (metres <= length) return length > before ? mean + ((metres - before) / (length - before)) * (next - mean) : mean;
    [before, mean] = [length, next];
  }
  return mean;
}
