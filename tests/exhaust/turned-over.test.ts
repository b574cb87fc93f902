// Sensors of 0 to 1 V that were recorded turned over: 1 V less what they should read.

import { expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import { capture, even, square } from "./make.ts";

/** Pulls of three seconds, then fuel cut for five, at these times, s. */
const lifts = [16, 32, 48];
const since = (t: number) => t - (lifts.find((at) => t >= at - 3 && t < at + 5) ?? Number.POSITIVE_INFINITY);
const seconds = 60;

const front = (t: number) => (since(t) >= 0 ? 0.05 : since(t) >= -3 ? 0.88 : square(1.2, 0.1)(t));
/** Holds on for 1.5 s: a sound store. */
const rear = (t: number) => (since(t) >= 1.5 ? 0.04 : since(t) >= -2.5 ? 0.85 : 0.7);

function car(turned: (volts: number) => number) {
  return capture(
    even("front-o2", seconds, 100, (t) => turned(front(t))),
    even("rear-o2", seconds, 100, (t) => turned(rear(t))),
    even("throttle", seconds, 20, (t) => (since(t) >= 0 ? 2 : since(t) >= -3 ? 70 : 15)),
    even("engine-speed", seconds, 20, (t) =>
      since(t) >= 0 ? 3400 - 350 * since(t) : since(t) >= -3 ? 3400 + 300 * since(t) : 2300,
    ),
  );
}

test("sensors that stand high in every fuel cut are noticed, asked about, and accuse nobody", () => {
  const { awake, findings, store } = analyse(car((volts) => 1 - volts));
  expect(awake.front?.kind).toBe("inverted");
  expect(store).toBeNull();
  expect(findings.filter(({ verdict, id }) => verdict === "points-to" && id !== "recording")).toEqual([]);
  expect(findings[0]!.statement).toMatch(/turned over/);
});

test("the same sensors the right way up are judged", () => {
  const { awake, findings } = analyse(car((volts) => volts));
  expect(awake.front?.kind).toBe("narrow-band");
  expect(findings[0]!.verdict).toBe("points-away");
});

test("a front that reads rich all the time, also in a cut, is not called turned over", () => {
  const stuck = car((volts) => volts);
  const channels = stuck.channels.map((one) =>
    one.role === "front-o2"
      ? { ...one, series: { ...one.series, samples: one.series.samples.map((v) => 0.8 + 0.05 * v) } }
      : one,
  );
  expect(analyse({ ...stuck, channels }).awake.front?.kind).not.toBe("inverted");
});
