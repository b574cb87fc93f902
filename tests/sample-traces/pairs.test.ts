// Pairs are what their labels say.

import { describe, expect, test } from "vitest";
import { drawPair, simulatePair } from "../../sample-traces/simulator/pairs.ts";

const seeds = [0, 4, 7];

describe("pairs", () => {
  test("are the same for the same seed", () => {
    expect(drawPair("different", 3)).toEqual(drawPair("different", 3));
    expect(drawPair("different", 3).suspect.seed).not.toBe(drawPair("different", 4).suspect.seed);
  });

  // What passes is capacity plus what fills the pipes: the same for one catalyst, whatever the drive.
  test.each(seeds)("hold one catalyst recorded twice, other noise, rate and drive (%i)", (seed) => {
    const pair = drawPair("identical", seed);
    const { suspect, reference, passedRatio, flowRatio } = simulatePair(pair);
    expect(pair.suspect.car.catalyst).toEqual(pair.reference.car.catalyst);
    expect(pair.suspect.recorder).not.toEqual(pair.reference.recorder);
    expect(suspect.capture).not.toEqual(reference.capture);
    expect(Math.abs(passedRatio! - 1)).toBeLessThan(0.1);
    expect(Math.abs(flowRatio! - 1)).toBeLessThan(0.25);
  });

  test.each(seeds)("hold a suspect that stores less, by the ratio told, at a like flow (%i)", (seed) => {
    const pair = drawPair("different", seed);
    const { passedRatio, flowRatio } = simulatePair(pair);
    expect(pair.suspect.car.catalyst.capacity / pair.reference.car.catalyst.capacity).toBeCloseTo(
      pair.capacityRatio,
      12,
    );
    expect(passedRatio!).toBeLessThan(0.95);
    // The pipes' share is the same in both and pulls the ratio towards 1.
    expect(passedRatio!).toBeGreaterThan(0.9 * pair.capacityRatio);
    expect(Math.abs(flowRatio! - 1)).toBeLessThan(0.25);
  });

  test.each(seeds)("hold one catalyst at flows too far apart to compare (%i)", (seed) => {
    const { flowRatio, delayRatio } = simulatePair(drawPair("unfair", seed));
    expect(flowRatio!).toBeGreaterThan(1.8);
    expect(delayRatio!).toBeLessThan(0.7);
  });
});
