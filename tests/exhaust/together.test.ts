// Front and rear that were not recorded at the same time: nothing is compared, and it is said.

import { expect, test } from "vitest";
import { measurePair, measureSwing } from "../../src/exhaust/activity/pair.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { channelsOf } from "../../src/exhaust/terms/channels.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { capture, rows } from "./make.ts";

const stamps = Array.from({ length: 2400 }, (_, i) => i / 20);
const front = (t: number) => 0.45 + 0.38 * Math.sign(Math.sin(5.65 * t));
const rear = (t: number) => 0.68 + 0.03 * Math.sin(t / 5);

/** Two minutes at 20 rows/s, each sensor recorded only when it says so. */
const recorded = (frontAt: (t: number) => boolean, rearAt: (t: number) => boolean) =>
  capture(
    rows(
      "front-o2",
      stamps,
      stamps.map((t) => (frontAt(t) ? front(t) : Number.NaN)),
    ),
    rows(
      "rear-o2",
      stamps,
      stamps.map((t) => (rearAt(t) ? rear(t) : Number.NaN)),
    ),
  );
const always = () => true;
const told = (made: ReturnType<typeof recorded>) => measurePair(made, 1, { from: 0, to: 120 }).activity!;

test.each<[name: string, frontAt: (t: number) => boolean, rearAt: (t: number) => boolean]>([
  ["one after the other", (t) => t > 60, (t) => t <= 60],
  ["the front in pieces of 0.8 s", (t) => Math.floor(t / 0.8) % 2 === 1, always],
])("%s: no ratio is told, but for how long both were recorded", (_, frontAt, rearAt) => {
  const made = recorded(frontAt, rearAt);
  const { crossingRatio, amplitudeRatio, lengthRatio } = told(made);
  for (const reading of [crossingRatio, amplitudeRatio, lengthRatio]) {
    expect(reading.grade).toBe("not-resolvable");
    expect(reading.because).toMatch(/recorded together for only/);
  }
  expect(analyse(made, { bank: 1 }).stretches.filter(({ fit }) => fit)).toEqual([]);
});

test("a second of one alone at the start changes nothing", () => {
  expect(told(recorded(always, (t) => t > 1)).crossingRatio.grade).toBe("at-most");
});

test("single cells that are missing all through are said to part the cycles", () => {
  const { because } = told(recorded((t) => Math.round(20 * t) % 7 !== 3, always)).crossingRatio;
  expect(because).toMatch(/Missing values part it into 344 pieces/);
});

test("too few cycles name the hole that took them", () => {
  const hole = (t: number) => t < 3 || t > 118;
  const reading = measurePair(recorded(hole, hole), 1, { from: 2.6, to: 118.2 }).activity!.crossingRatio;
  expect(reading.because).toMatch(/full front cycles; 1 are needed\. 115\s+s of it were not recorded/);
});

test("a swing at a glance needs both as well", () => {
  const swing = (frontAt: (t: number) => boolean) =>
    measureSwing(
      channelsOf(
        recorded(frontAt, (t) => t <= 60),
        1,
      ),
      {
        span: { from: 50, to: 70 },
        limits: limitsInForce(),
        leastCycles: 1,
      },
    );
  expect(swing((t) => t <= 60)).not.toBeNull();
  expect(swing((t) => t > 60)).toBeNull();
});

test("a part that a hole cuts short names the hole", () => {
  const hole = (t: number) => t < 15 || (t > 40 && t < 52) || t > 80;
  const { stretches } = analyse(recorded(hole, hole), { bank: 1 });
  const said = stretches.map(({ because }) => because);
  expect(said[0]).toMatch(/Only \d+ front cycles here; 20 are needed\. It ends at a hole of 25\.?\d*\s+s\./);
  // The last value before a hole is not held into it: the front was not rich for two seconds.
  expect(stretches.map(({ kind }) => kind)).not.toContain("load");
  expect(said.join()).toMatch(/It lies between a hole of 25\.?\d*\s+s and a hole of 28\.?\d*\s+s\./);
});
