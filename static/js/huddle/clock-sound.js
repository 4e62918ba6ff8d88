/** Being heard and felt at the marks of the clock: tones made here, and the device's own buzz. */

/** Tones at a mark: hertz, and how long each is, seconds. @type {Record<number, [number, number][]>} */
const TONES = { 15: [[880, 0.18]], 5: [[880, 0.14], [880, 0.14]], 0: [[587, 0.9]] };
/** Buzzes at a mark, milliseconds on and off by turns. @type {Record<number, number[]>} */
const BUZZES = { 15: [250], 5: [160, 90, 160], 0: [700] };
const GAP = 0.12;
const LOUD = 0.5;

/** @type {AudioContext | null} */
let context = null;

/** A page may only sound after a tap: call it from one. */
export function tuneIn() {
  context ??= new AudioContext();
  if (context.state === "suspended") void context.resume();
}

/** @param {number} mark  seconds left */
export function sound(mark) {
  if (!context || context.state !== "running") return;
  let at = context.currentTime + 0.02;
  for (const [hertz, length] of TONES[mark] ?? []) {
    const tone = new OscillatorNode(context, { type: "square", frequency: hertz });
    const level = new GainNode(context, { gain: 0 });
    level.gain.setTargetAtTime(LOUD, at, 0.005);
    level.gain.setTargetAtTime(0, at + length, 0.015);
    tone.connect(level).connect(context.destination);
    tone.start(at);
    tone.stop(at + length + 0.1);
    at += length + GAP;
  }
}

export const canBuzz = typeof navigator.vibrate === "function";

/** @param {number} mark  seconds left */
export function buzz(mark) {
  if (canBuzz) navigator.vibrate(BUZZES[mark] ?? []);
}
