// Air flow worked out where none was recorded, by hand.

import { expect, test } from "vitest";
import { airOf } from "../../src/exhaust/store/air.ts";
import { channelsOf } from "../../src/exhaust/terms/channels.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { capture, even } from "./make.ts";

const grid = { from: 0, step: 0.1, count: 100 };

// Speed-density by hand: 0.75 x 1.6e-3 m³ / 2 x 3000 / 60 1/s x 50 000 Pa / (287.05 J/(kg K) x 310 K) = 16.86 g/s.
test("3000 1/min at 50 kPa draw 16.9 g/s into 1.6 l, within 1.3 either way", () => {
  const made = capture(
    even("engine-speed", 20, 10, () => 3000),
    even("manifold-pressure", 20, 10, () => 50),
  );
  const air = airOf(channelsOf(made, 1), grid, limitsInForce(), 1.6);
  expect(air.flow[50]).toBeCloseTo(16.86, 1);
  expect(air.doubt).toBeCloseTo(1.3, 6);
  expect(air.litres).toBe(1.6);
});
