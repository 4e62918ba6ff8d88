/** What is used of perfect-freehand 1.2.3 (MIT, see LICENSE). */
export interface StrokeOptions {
  size?: number;
  thinning?: number;
  smoothing?: number;
  streamline?: number;
  simulatePressure?: boolean;
  last?: boolean;
}
export function getStroke(points: number[][], options?: StrokeOptions): [number, number][];
