// A catalyst as one oxygen store that takes up a lean excess while it is not full and gives to a rich lack while it is not
// empty.

import type { CatalystSpec } from "./car.ts";
import { oxygenInAir } from "./gas.ts";

export interface Catalyst {
  /**
   * One step.
   *
   * @param excess going in, 1 - 1/lambda. @param airFlow g/s.
   * @param active share of the catalyst that is hot enough, 0..1.
   * @returns excess coming out.
   */
  pass(excess: number, airFlow: number, active: number): number;
  /** Grams of oxygen held now. */
  stored(): number;
  /** How much richer than it is the gas behind looks to a sensor now, as an excess (from memory). */
  hydrogen(active: number): number;
}

/**
 * Form of the store: d(filling)/dt = oxygen in excess x share taken / capacity, share taken = most (1 - filling^n) on the
 * lean side and most (1 - (1 - filling)^n) on the rich side; n makes the break sharp, and most = (1 - slip)(1 -
 * exp(-reach/flow)) falls as gas has less time in the brick. What a step can take is bounded by what fits, so oxygen in
 * minus oxygen out is what is stored, exactly.
 * Source: form of Brandt, Wang & Grizzle, IEEE Trans. Control Systems Technology 8(5), 2000 (from memory), with a power for
 * the sharpness and a residence time.
 *
 * @param step s.
 */
export function createCatalyst(spec: CatalystSpec, step: number): Catalyst {
  let stored = spec.capacity * 0.5;
  return {
    pass(excess, airFlow, active) {
      const mass = oxygenInAir * airFlow * step;
      if (mass <= 0) return excess;
      const room = excess > 0 ? spec.capacity - stored : stored;
      const most = (1 - spec.slip) * (1 - Math.exp(-spec.reach / airFlow));
      const open = active * most * (1 - (1 - room / spec.capacity) ** spec.sharpness);
      const moved = Math.min(Math.abs(excess) * mass * open, room) * Math.sign(excess);
      stored += moved;
      return excess - moved / mass;
    },
    stored: () => stored,
    hydrogen: (active) => spec.hydrogen * active * (1 - (0.6 * stored) / spec.capacity),
  };
}

/** Share of the catalyst that works at a temperature, degC: half at light-off, within about 60 K all. From memory. */
export function activeShare(spec: CatalystSpec, celsius: number): number {
  return 1 / (1 + Math.exp((spec.lightOff - celsius) / 12));
}
