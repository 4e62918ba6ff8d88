/** How long what is drawn by hand takes: the figures of `engine/motion/speeds.py`. Pure. */

/** Mean speed over a length: metres, metres a second; between two lengths it is interpolated. */
const PACES = {
  run: [[1, 1.7], [3, 2.4], [5.5, 2.8], [9, 3.1], [15, 3.6]],
  dribble: [[1, 1.7], [3, 2.3], [5.5, 2.7], [9, 3]],
  ball: [[3, 8.2], [5, 9.8], [7, 10.9], [9, 11.5], [11.5, 12.1]],
};
/** A shot's flight, and so much longer for each metre, seconds. */
const SHOT = 0.4;
const SHOT_PER_M = 0.1;
/** One tap on slower or faster changes a duration by so much. */
const STEP = 1.2;

/** @param {number[][]} pace @param {number} length  metres */
function speed(pace, length) {
  let [before, mean] = pace[0];
  for (const [metres, next] of pace) {
    if (length <= metres) return metres > before ? mean + ((length - before) / (metres - before)) * (next - mean) : mean;
    [before, mean] = [metres, next];
  }
  return mean;
}

/**
 * @param {keyof typeof PACES | "shot"} how
 * @param {number} length  centimetres
 * @param {number} level  the board's
 * @param {number} [taps]  on faster, below 0 on slower
 * @returns {number} hundredths of a second, at least 5
 */
export function lasting(how, length, level, taps = 0) {
  const metres = length / 100;
  const seconds = how === "shot" ? SHOT + SHOT_PER_M * metres : metres / speed(PACES[how], metres);
  return Math.max(5, Math.round((seconds * 100) / level / STEP ** taps));
}
