// Lift-offs in slow logs: what whole-second stamps and unknown ages of values allow to be said, and no more.

import { describe, expect, test } from "vitest";
import type { Capture, Channel, Role } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import type { StampDoubt } from "../../src/signal/series/series.ts";
import { capture, withoutStore } from "./make.ts";

/** A log of one row each `step` seconds; rows give front and rear volts. */
function log(rows: readonly (readonly [front: number, rear: number])[], step: number, doubt?: StampDoubt): Capture {
  const stamps = Float64Array.from(rows, (_, i) => i * step);
  const channel = (role: Role, i: 0 | 1): Channel => ({
    id: `c${i + 1}`,
    name: role,
    unit: "V",
    fileUnit: "V",
    role,
    bank: 1,
    polled: doubt !== undefined,
    series: {
      time: { kind: "stamped", stamps, ...(doubt ? { doubt } : {}) },
      samples: Float64Array.from(rows, (row) => row[i]),
    },
  });
  const channels = [channel("front-o2", 0), channel("rear-o2", 1)];
  return { name: "log", format: "test", startedAt: null, remarks: [], channels };
}

const swing = (i: number): [number, number] => (i % 2 === 0 ? [0.8, 0.7] : [0.1, 0.2]);
const rich: [number, number] = [0.9, 0.85];
const air: [number, number] = [0.02, 0.02];
const repeat = (n: number, row: [number, number]) => Array.from({ length: n }, () => row);

describe("a lift-off in a slow log", () => {
  // Rows of 1 s; the front falls between two rows, the rear between the next two: by arithmetic the delay lies in
  // 0 to 2 s, and in -1 to 3 s when every value may be up to one row old; the gas cannot arrive before it left.
  const rows = [
    ...Array.from({ length: 40 }, (_, i) => swing(i)),
    ...repeat(6, rich),
    [0.02, 0.85] as [number, number],
    ...repeat(6, air),
    ...Array.from({ length: 10 }, (_, i) => swing(i)),
  ];

  test("in neighbouring rows taken at once says 0 to 2 s", () => {
    const [event] = analyse(log(rows, 1), { bank: 1 }, () => {}, withoutStore).liftOffs;
    expect(event!.delay).toMatchObject({ low: 0, grade: "at-most" });
    expect(event!.delay.high).toBeCloseTo(2, 6);
  });

  test("in neighbouring rows of unknown order says 0 to 3 s", () => {
    const [event] = analyse(log(rows, 1, { early: 1, late: 0 }), { bank: 1 }, () => {}, withoutStore).liftOffs;
    expect(event!.delay).toMatchObject({ low: 0, grade: "at-most" });
    expect(event!.delay.high).toBeCloseTo(3, 6);
  });

  test("is never tied to a swing of the rear from before the rich plateau, however doubtful the stamps", () => {
    const both = [
      ...Array.from({ length: 40 }, (_, i) => swing(i)),
      ...repeat(6, rich),
      ...repeat(12, air),
      ...Array.from({ length: 10 }, (_, i) => swing(i)),
    ];
    const [event] = analyse(log(both, 0.5, { early: 1.5, late: 1 }), { bank: 1 }, () => {}, withoutStore).liftOffs;
    // Truth: both fall between the same two rows, so the delay is nearly none.
    expect(event!.delay.low).toBeLessThanOrEqual(0);
    expect(event!.delay.high).toBeGreaterThanOrEqual(0);
  });

  test("is none where the front alone stays lean, as rows in step with its swing may show it", () => {
    // A front of 0.96 Hz met once a second drifts by 0.04 of its cycle a row: 12 rows rich, 12 rows lean, and no foot was lifted.
    const folded = Array.from({ length: 150 }, (_, i): [number, number] => [
      0.45 + 0.4 * Math.sign(Math.sin(2 * Math.PI * 0.96 * (i + 0.5))),
      0.72 + 0.01 * (i % 3),
    ]);
    const alternating = Array.from({ length: 40 }, (_, i) => swing(i));
    const { liftOffs, liftOff } = analyse(
      log([...alternating, ...folded], 1, { early: 1, late: 0 }),
      { bank: 1 },
      () => {},
      withoutStore,
    );
    expect(liftOffs.filter(({ rejected }) => rejected === null)).toEqual([]);
    expect(liftOff).toBeNull();
  });

  // Rows of 0.45 s, 2.22 a second: a loop of 2.112 Hz looks like one of 0.11 Hz (aliasing), with half-cycles of 4.5 s; 1.5
  // times that is longer than the cut.
  describe("hidden among half-cycles that the sampling made longer", () => {
    const step = 0.45;
    const dt = { kind: "even", start: 0, step, count: 333 } as const;
    const cut = (t: number) => t > 118 && t < 123.5;
    const slow = (f: (t: number) => number) => Float64Array.from({ length: 333 }, (_, i) => f(i * step));
    const front = slow((t) =>
      cut(t) ? 0.02 : t > 112 && t <= 118 ? 0.9 : 0.45 + 0.4 * Math.sin(2 * Math.PI * 2.112 * t),
    );
    const rear = slow((t) => (cut(t - 1) ? 0.02 : 0.75));
    const throttle = slow((t) => (cut(t) ? 0 : 30));
    const speed = slow((t) => (t > 118 ? Math.max(1500, 3000 - 200 * (t - 118)) : 3000));
    const recorded = (status: (t: number) => number) =>
      analyse(
        capture(
          { role: "front-o2", time: dt, samples: front },
          { role: "rear-o2", time: dt, samples: rear },
          { role: "throttle", time: dt, samples: throttle },
          { role: "engine-speed", time: dt, samples: speed },
          { role: "fuel-status", time: dt, samples: slow(status) },
        ),
        {},
        () => {},
        withoutStore,
      ).liftOffs;

    test("is found where fuel status proves the cut and the throttle closed", () => {
      const found = recorded((t) => (cut(t) ? 4 : 2));
      expect(found.map(({ fuelCut }) => fuelCut)).toEqual(["proven"]);
      // Truth: the rear falls 1 s after the front.
      expect(found[0]!.delay.low).toBeLessThanOrEqual(1);
      expect(found[0]!.delay.high).toBeGreaterThanOrEqual(1);
    });

    test("is found where the throttle stayed closed as long as the front was lean", () => {
      expect(recorded(() => 2).map(({ fuelCut }) => fuelCut)).toEqual(["likely"]);
    });

    test("nor by a status that says open loop while the throttle stays open", () => {
      throttle.fill(30);
      expect(recorded(() => 4)).toEqual([]);
    });
  });
});
