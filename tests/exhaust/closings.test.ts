// Lift-offs as the foot tells them: engine stops, holes, offsets, a fuel status that never changes, slow logs.

import { describe, expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import { closingsOf, rangeWithin, slowingFrom } from "../../src/exhaust/lift-offs/closings.ts";
import type { Analysis } from "../../src/exhaust/terms/analysis.ts";
import type { BankChannels } from "../../src/exhaust/terms/channels.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { type Logged, logOf } from "../logs/log.ts";
import { type Car, type Drive, drive, type Leg } from "../logs/plant.ts";
import { random } from "../reference/recorders.ts";
import { ofTrials } from "../share.ts";
import { capture, type Part, rows, withoutStore } from "./make.ts";

const car: Car = {
  store: 0.8,
  frontLag: 0.05,
  rearLag: 0.08,
  flow: 10,
  delay: 0.3,
  offset: 0,
  throttle: [4, 18, 60],
};
const pull: Leg = { kind: "pull", seconds: 5 };
const closing: Leg = { kind: "closing", seconds: 7 };
const cruise: Leg = { kind: "cruise", seconds: 25 };
const plan: Leg[] = [cruise, cruise, pull, closing, cruise, pull, closing, cruise];
const all = ["engineSpeed", "throttle", "airFlow", "front", "rear"] as const;
const roles = {
  engineSpeed: "engine-speed",
  throttle: "throttle",
  roadSpeed: "road-speed",
  airFlow: "air-flow",
  front: "front-o2",
  rear: "rear-o2",
} as const;

/** Parts of a recording of the drive, all asked for in every row. */
function recorded(made: Drive, rate: number, channels: readonly Logged[] = all): Part[] {
  const rule = { rows: rate, channels, turn: 1, between: "held", jitter: 0, noise: 0.003, quantum: 0 } as const;
  const { stamps, columns } = logOf(made, rule, random(3));
  const doubt = rate < 20 ? { early: 1 / rate, late: 0 } : undefined;
  return channels.map((name) => rows(roles[name], [...stamps], [...columns[name]!], doubt));
}

const analysed = (parts: readonly Part[]): Analysis => analyse(capture(...parts), { bank: 1 }, () => {}, withoutStore);

/** Times from the front's fall to the rear's after each closing, in the drive itself. */
function trueDelays({ closings, front, rear, step }: Drive, level = 0.45): number[] {
  const fall = (trace: Float64Array, since: number) => {
    let i = Math.round(since / step);
    while (trace[i]! > level) i++;
    return i * step;
  };
  return closings.map((at) => fall(rear, at) - fall(front, at));
}

const changed = (parts: readonly Part[], role: string, change: (value: number, t: number) => number): Part[] =>
  parts.map((part) => {
    if (part.role !== role || part.time.kind !== "stamped") return part;
    const { stamps } = part.time;
    return { ...part, samples: part.samples.map((value, i) => change(value, stamps[i]!)) };
  });

const made = drive(car, plan, 1);
const [first, second] = made.closings as [number, number];
const truth = trueDelays(made);

function expectTimed({ liftOffs }: Analysis): void {
  expect(liftOffs.map(({ rejected }) => rejected)).toEqual([null, null]);
  liftOffs.forEach(({ delay }, k) => {
    expect(delay.low).toBeLessThanOrEqual(truth[k]! + 0.004);
    expect(delay.high).toBeGreaterThanOrEqual(truth[k]! - 0.004);
  });
}

test("a lean spell while the foot goes down and stays there is no lift-off", () => {
  const legs: Leg[] = [
    { kind: "idle", seconds: 40 },
    { kind: "cruise", seconds: 1.5 },
    { kind: "creep", seconds: 14 },
    cruise,
  ];
  const away = drive({ ...car, throttle: [0, 9.4, 50] }, legs, 2);
  const { liftOffs } = analysed(recorded(away, 2.4, ["engineSpeed", "throttle", "roadSpeed", "front", "rear"]));
  expect(liftOffs.filter(({ rejected }) => rejected === null)).toEqual([]);
});

describe("lift-offs of a recording at 100 samples/s", () => {
  const parts = recorded(made, 100);
  const plain = analysed(parts);

  test("are found and timed", () => expectTimed(plain));

  test("are timed where a single cell is missing beside the fall, in front or rear", () => {
    for (const role of ["front-o2", "rear-o2"]) {
      for (const after of [-0.5, 0.6, 2]) {
        const holed = changed(parts, role, (value, t) => (Math.abs(t - first - after) < 0.005 ? Number.NaN : value));
        expectTimed(analysed(holed));
      }
    }
  });

  test("are listed with the true reason where the front was not recorded", () => {
    const holed = changed(parts, "front-o2", (value, t) => (Math.abs(t - first) < 4 ? Number.NaN : value));
    const { liftOffs } = analysed(holed);
    expect(liftOffs).toHaveLength(2);
    expect(liftOffs[0]!.rejected).toMatch(/not being recorded/);
    expect(liftOffs[1]!.rejected).toBeNull();
  });

  test("are found with both sensors lifted by their ground, which is said", () => {
    for (const offset of [0.15, 0.2]) {
      const lifted = ["front-o2", "rear-o2"].reduce(
        (list, role) => changed(list, role, (value) => value + offset),
        parts as Part[],
      );
      const found = analysed(lifted);
      expect(found.liftOffs.filter(({ rejected }) => rejected === null)).toHaveLength(2);
      expect(found.liftOffs[0]!.remarks.join(" ")).toMatch(/poor ground/);
    }
    expect(plain.liftOffs[0]!.remarks.join(" ")).not.toMatch(/poor ground/);
  });

  test("are not refuted by a fuel status that never changes", () => {
    const without = parts.filter(({ role }) => role !== "throttle");
    const { stamps } = parts[0]!.time as { stamps: Float64Array };
    const status = rows(
      "fuel-status",
      [...stamps],
      Array.from(stamps, () => 2),
    );
    expect(analysed([...without, status]).liftOffs).toHaveLength(2);
  });

  test("are not timed in grams across a hole of the air flow", () => {
    const holed = changed(parts, "air-flow", (value, t) => (t > first - 10 && t < second - 10 ? Number.NaN : value));
    const [lost, kept] = analysed(holed).liftOffs;
    expect(lost!.storedOxygen.grade).toBe("not-resolvable");
    expect(lost!.storedOxygen.because).toMatch(/air flow/);
    expect(lost!.airFlow).toBeNull();
    expect(kept!.storedOxygen.grade).not.toBe("not-resolvable");
  });

  test("say that the rear fell first where it did", () => {
    const early = changed(parts, "rear-o2", (value, t) => (t > first + 0.1 && t < first + 9 ? 0.05 : value));
    const [one] = analysed(early).liftOffs;
    expect(one!.delay.grade).toBe("not-resolvable");
    expect(one!.rejected).toMatch(/rear fell .* before the front/);
  });

  test("are no stops of the engine", () => {
    // The front loses its voltage as the engine stops: nothing of it is a fuel cut on the move.
    const stopped = (t: number) => [first, second].some((at) => t > at && t < at + 7);
    const still = changed(
      changed(parts, "engine-speed", (value, t) => (stopped(t) ? 0 : value)),
      "throttle",
      () => 4,
    );
    expect(analysed(still).liftOffs).toEqual([]);
  });

  test("at the beginning make no cold engine", () => {
    const begin = first + 0.8;
    const cut = parts
      .filter(({ role }) => role !== "throttle")
      .map((part) => {
        const { stamps } = part.time as { stamps: Float64Array };
        const from = stamps.findIndex((t) => t > begin);
        return rows(
          part.role,
          [...stamps.subarray(from)].map((t) => t - begin),
          [...part.samples.subarray(from)],
        );
      });
    expect(analysed(cut).stretches.map(({ kind }) => kind)).not.toContain("cold");
  });

  test("of an engine whose throttle stands open leave its cruise a cruise", () => {
    const open = drive({ ...car, throttle: [60, 78, 80] }, plan, 2);
    const kinds = analysed(recorded(open, 100)).stretches.filter(({ from, to }) => to - from > 10);
    expect(kinds.map(({ kind }) => kind)).toContain("cruise");
    expect(kinds.map(({ kind }) => kind)).not.toContain("load");
  });
});

test("a coolant that swings about 80 degC makes one warm state", () => {
  const parts = recorded(made, 20);
  const { stamps } = parts[0]!.time as { stamps: Float64Array };
  const coolant = rows(
    "coolant-temp",
    [...stamps],
    Array.from(stamps, (t) => 79.5 + 0.6 * Math.sin(t / 7)),
  );
  const kinds = analysed([...parts, coolant]).stretches.filter(({ from }) => from > 20);
  expect(kinds.map(({ kind }) => kind)).not.toContain("cold");
});

describe("a log of one row a second", () => {
  const with3 = drive(
    { ...car, delay: 0.4 },
    [cruise, cruise, pull, closing, cruise, pull, closing, cruise, pull, closing, cruise],
    4,
  );
  const truths = trueDelays(with3);

  test("lists clear closings with a delay bounded by its rows", () => {
    const { liftOffs } = analysed(recorded(with3, 1));
    expect(liftOffs).toHaveLength(3);
    const timed = liftOffs.filter(({ delay }) => delay.grade !== "not-resolvable");
    expect(timed.length).toBeGreaterThanOrEqual(2);
    for (const { at, delay } of timed) {
      const k = with3.closings.findIndex((closed) => Math.abs(closed - at) < 4);
      expect(delay.low ?? 0).toBeLessThanOrEqual(truths[k]!);
      expect(delay.high ?? Infinity).toBeGreaterThanOrEqual(truths[k]!);
    }
  });

  test("takes no lean spell with the foot and the speed steady for one", () => {
    const creep: Leg = { kind: "creep", seconds: 15 };
    for (let k = 0; k < ofTrials(2, 4); k++) {
      const steady = drive(car, [cruise, creep, creep, cruise, creep, pull, cruise], 20 + k);
      expect(analysed(recorded(steady, 1)).liftOffs.filter(({ rejected }) => rejected === null)).toEqual([]);
      expect(analysed(recorded(steady, 8)).liftOffs.filter(({ rejected }) => rejected === null)).toEqual([]);
    }
  });
});

test("the range of a pedal that a scope sampled half a million times is found, and holes are passed over", () => {
  const samples = Float64Array.from({ length: 500_000 }, (_, i) => (i % 7 === 0 ? NaN : 20 + (i % 100) / 10));
  const series = { time: { kind: "even", start: 0, step: 1e-5, count: samples.length }, samples } as const;
  expect(rangeWithin(series, 0, 5)).toEqual({ low: 20, high: 29.9 });
  expect(rangeWithin(series, 0, 0)).toBeNull();
});

describe("a closing of the throttle, by hand", () => {
  const limits = limitsInForce();
  const channelsOf = (throttle: readonly number[], engineSpeed: readonly number[]) => {
    const stamps = throttle.map((_, i) => i);
    const { channels } = capture(rows("throttle", stamps, throttle), rows("engine-speed", stamps, engineSpeed));
    return { throttle: channels[0]!, engineSpeed: channels[1]! } as unknown as BankChannels;
  };

  test("is over when the throttle leaves its stop for good, though the car cruises with hardly more", () => {
    const throttle = [17, 17, 70, 70, 70, 12, 12, 12, 12, 17, 17, 17, 17, 70, 70, 12, 12, 12];
    const speed = [20, 20, 24, 28, 32, 34, 31, 28, 25, 20, 20, 20, 20, 24, 28, 30, 27, 24].map((value) => 100 * value);
    expect(closingsOf(channelsOf(throttle, speed), limits)).toEqual([
      { at: 5, until: 9 },
      { at: 15, until: 17 },
    ]);
  });

  test("is at speed where the row before it stems from the pull, when the engine was slower still", () => {
    const speed = [2000, 2400, 2750, 3110, 3449, 3217, 2988, 2755];
    const { engineSpeed } = channelsOf(speed, speed);
    expect(slowingFrom(engineSpeed!.series, 3.5)).toEqual({ highest: 3449, falls: true });
    expect(slowingFrom(engineSpeed!.series, 4)).toEqual({ highest: 3449, falls: true });
    expect(slowingFrom(engineSpeed!.series, 0.5).falls).toBe(false);
  });
});
