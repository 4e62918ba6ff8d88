/**
 * Figures of the engine (engine/motion/speeds.py says what each is and where it comes from), in centimetres
 * and seconds. Written by `python -m engine.motion.figures`: not to be changed here.
 */
export const RAMP = 0.22;
export const REACH = 100;
export const HAND = 0.18;
export const ARM = 90;
export const MEET_WITHIN = 3.0;
export const LOOK = 0.04;
export const BALL_MOST = 1500;
export const BREATH = 0.5;
export const GUARD = 140;
export const GUARD_SHARE = 0.6;
export const STRAY = 0.4;
export const SEEN = 0.12;
export const THERE = 5;
export const GLANCE = 0.01;
export const PLACED = 1;
export const FOLLOW_THROUGH = 0.15;
export const SHOT = 0.4;
export const SHOT_PER_M = 0.1;
/** Mean speed over a length: metres, metres a second; interpolated between two lengths. */
export const PACES = {
  run: [[1.0, 1.7], [3.0, 2.4], [5.5, 2.8], [9.0, 3.1], [15.0, 3.6]],
  dribble: [[1.0, 1.7], [3.0, 2.3], [5.5, 2.7], [9.0, 3.0]],
  ball: [[3.0, 8.2], [5.0, 9.8], [7.0, 10.9], [9.0, 11.5], [11.5, 12.1]],
};
