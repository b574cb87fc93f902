// Front and rear over a span: signals whose answers are known in closed form.

import { describe, expect, test } from "vitest";
import { measurePair } from "../../src/exhaust/activity/pair.ts";
import { reelOver } from "../../src/signal/series/reel.ts";
import { difference } from "../difference.ts";
import { capture, even, noise, square } from "./make.ts";

const whole = { from: 0, to: 60 };

describe("measurePair", () => {
  // Closed form: a 1 Hz square passes 0.45 V 120 times in 60 s.
  test("counts a square of 1 Hz", () => {
    const { front } = measurePair(capture(even("front-o2", 60, 1000, square(1))), 1, whole).sensors;
    expect(Math.abs(front!.crossings.value! - 120)).toBeLessThanOrEqual(1);
    expect(front!.frequency.value!).toBeCloseTo(1, 2);
    expect(front!.crossingsPer10s.value!).toBeCloseTo(20, 0);
    expect(front!.amplitude.value!).toBeCloseTo(0.8, 2);
    expect(front!.richShare.value!).toBeCloseTo(50, 0);
  });

  test("sees no switching in noise about 0.45 V", () => {
    const hiss = noise(7, 0.01);
    const made = capture(
      even("front-o2", 60, 1000, square(1)),
      even("rear-o2", 60, 1000, () => 0.45 + hiss()),
    );
    const { sensors, activity } = measurePair(made, 1, whole);
    expect(sensors.rear!.crossings.value).toBe(0);
    expect(activity!.crossingRatio.grade).toBe("at-most");
    // Exact form of the rule of three for 120 front crossings: 1 - 0.05^(1/120).
    expect(activity!.crossingRatio.high!).toBeCloseTo(1 - 0.05 ** (1 / 119), 3);
    expect(activity!.amplitudeRatio.high!).toBeLessThan(0.1);
    expect(activity!.lengthRatio.high!).toBeLessThan(0.2);
  });

  // Closed form: the rear is the front, 0.15 s later.
  test("measures a follower", () => {
    const made = capture(even("front-o2", 60, 1000, square(1)), even("rear-o2", 60, 1000, square(1, 0.15)));
    const activity = measurePair(made, 1, whole).activity!;
    expect(activity.amplitudeRatio.value!).toBeCloseTo(1, 2);
    expect(activity.crossingRatio.value!).toBeCloseTo(1, 1);
    expect(activity.lag.value!).toBeCloseTo(0.15, 3);
    expect(activity.lengthRatio.value!).toBeCloseTo(1, 1);
    expect(activity.bandRatio.value!).toBeCloseTo(1, 1);
    expect(activity.correlation.value!).toBeGreaterThan(0.95);
  });

  // First-order lag at 1 Hz, tau 0.1 s: gain 1/sqrt(1 + (2 pi f tau)^2) = 0.8467, delay atan(2 pi f tau)/(2 pi f) = 89.3 ms.
  test("measures a rear of known gain and lag", () => {
    const wave = (amplitude: number, late: number) => (t: number) =>
      0.5 + amplitude * Math.sin(2 * Math.PI * (t - late));
    const made = capture(even("front-o2", 60, 500, wave(0.4, 0)), even("rear-o2", 60, 500, wave(0.4 * 0.8467, 0.0893)));
    const activity = measurePair(made, 1, whole).activity!;
    expect(activity.amplitudeRatio.value!).toBeCloseTo(0.8467, 2);
    expect(activity.lag.value!).toBeCloseTo(0.0893, 3);
    // Energy goes with the square of the amplitude.
    expect(activity.bandRatio.value!).toBeCloseTo(0.8467 ** 2, 2);
  });

  test("uses one hysteresis for both: a noisy rear does not count more than a quiet front", () => {
    const hiss = noise(3, 0.05);
    const ripple = (t: number) => 0.45 + 0.12 * Math.sin(2 * Math.PI * 3 * t);
    const quiet = measurePair(capture(even("front-o2", 60, 500, ripple)), 1, whole);
    const made = capture(
      even("front-o2", 60, 500, ripple),
      even("rear-o2", 60, 500, () => 0.45 + hiss()),
    );
    const noisy = measurePair(made, 1, whole);
    expect(quiet.sensors.front!.crossings.value!).toBeGreaterThan(300);
    expect(noisy.sensors.front!.crossings.value!).toBe(0);
  });

  // f_alias = |f - fs| : 2 Hz sampled at 3 samples/s looks like 1 Hz.
  test("claims nothing of a front that may be folded", () => {
    const made = capture(even("front-o2", 60, 3, square(2)), even("rear-o2", 60, 3, square(2, 0.1)));
    const { sensors, activity } = measurePair(made, 1, whole);
    expect(sensors.front!.frequency.grade).toBe("not-resolvable");
    expect(sensors.front!.crossings.grade).toBe("at-least");
    expect(activity!.crossingRatio.grade).toBe("not-resolvable");
    expect(activity!.crossingRatio.because).toMatch(/200 samples\/s/);
    expect(activity!.amplitudeRatio.value).not.toBeNull();
  });

  test("keeps the samples behind each reading at hand", () => {
    const { evidence } = measurePair(capture(even("front-o2", 10, 100, square(1))), 1, { from: 0, to: 10 });
    expect(evidence["front.frequency"]!.marks.length).toBeGreaterThanOrEqual(9);
    expect(evidence["front.richToLean"]!.levels).toEqual([0.3, 0.6]);
    expect(evidence["rear.frequency"]).toBeUndefined();
  });

  // Closed form: 2 Hz crosses 0.45 V four times a second, so 2,400 times in 600 s.
  test("spreads a crowd of marks over the whole span, and counts all of them", () => {
    const made = capture(even("front-o2", 600, 50, square(2)));
    const { marks, count } = measurePair(made, 1, { from: 0, to: 600 }).evidence["front.crossings"]!;
    expect(Math.abs(count - 2400)).toBeLessThanOrEqual(1);
    expect(marks.length).toBe(1000);
    const gaps = marks.slice(1).map(({ time }, k) => time - marks[k]!.time);
    expect(Math.min(...gaps)).toBeGreaterThan(0);
    expect(Math.max(...gaps)).toBeLessThan(1);
    expect(marks.at(-1)!.time).toBeGreaterThan(599);
  });

  test("answers with nothing for a bank or a span without samples", () => {
    const made = capture(even("front-o2", 10, 100, square(1)));
    expect(measurePair(made, 2, { from: 0, to: 10 }).sensors).toEqual({ front: null, rear: null });
    expect(measurePair(made, 1, { from: 50, to: 60 }).sensors.front).toBeNull();
  });
});

describe("measurePair of channels that are not in memory", () => {
  // The peer is the same measurement with all samples in memory.
  test.each([1000, 7777, 1 << 20])("tells the same where %i samples are read at a time", (part) => {
    const [quiet, loud] = [noise(3, 0.004), noise(4, 0.02)];
    const made = capture(
      even("front-o2", 90, 500, (t) => square(0.9)(t) * 0.9 + quiet()),
      even("rear-o2", 90, 500, (t) => 0.5 + 0.1 * Math.sin(2 * Math.PI * 0.9 * (t - 0.1)) + loud()),
    );
    const span = { from: 3.3, to: 88.8 };
    const channels = made.channels.map((channel) => ({ ...channel, series: reelOver(channel.series, part, () => {}) }));
    expect(difference(measurePair({ channels }, 1, span), measurePair(made, 1, span))).toBe(null);
  });
});
