// How the recorded rear wanders about a course, with temperature and hydrogen: slowly, and not far.

import type { Seconds } from "../../signal/numbers/units.ts";
import type { StoreRecord } from "./record.ts";

/** As the fit is blind to it: so slowly, s, and so far either way, V. From memory. */
const wander: Seconds = 4;
const mostWander = 0.12;
/** A larger error than this, V, is no wander. */
const mostError = 0.25;

/** V to be added to the course in each cell; between rows as at the last. */
export function wanderOf({ rear, weight, grid }: StoreRecord, course: Float64Array): Float32Array {
  const found = new Float32Array(rear.length);
  let [level, before] = [0, -1];
  for (let i = 0; i < rear.length; i++) {
    if (weight[i]! > 0 && rear[i]! - rear[i]! === 0) {
      const error = Math.max(-mostError, Math.min(rear[i]! - level - course[i]!, mostError));
      const passed = before < 0 ? 1 : i - before;
      level += error * Math.min(1, (passed * grid.step) / wander);
      level = Math.max(-mostWander, Math.min(level, mostWander));
      before = i;
    }
    found[i] = level;
  }
  return found;
}
