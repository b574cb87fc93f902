// Rules of the findings that captures made by hand can show.

import { describe, expect, test } from "vitest";
import type { Capture } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import type { FindingId } from "../../src/exhaust/terms/analysis.ts";
import { anew } from "../../src/exhaust/terms/remembered.ts";
import { capture, even, noise, type Part, square, withoutStore } from "./make.ts";

/** Of these two the store that was fitted is a part. */
const byStore: readonly FindingId[] = ["catalyst", "rear-sensor"];
const finding = (made: Capture, id: FindingId) =>
  analyse(made, {}, () => {}, byStore.includes(id) ? anew : withoutStore).findings.find((one) => one.id === id)!;
const rpm = (seconds: number, value: (t: number) => number) => even("engine-speed", seconds, 20, value);

/** Three lift-offs at 20, 40 and 60 s: air from then on for six seconds, after a rich pull of three. */
const lifts = [20, 40, 60];
const inLift = (t: number, from: number, to: number) => lifts.some((at) => t >= at + from && t < at + to);
const frontWithLifts = (t: number) => (inLift(t, 0, 6) ? 0.04 : inLift(t, -3, 0) ? 0.88 : square(1.5)(t));
const rearHolding = (seconds: number) => (t: number) =>
  inLift(t, seconds, 6.5) ? 0.05 : 0.72 + 0.01 * Math.sin(0.8 * t);
const throttle = even("throttle", 80, 20, (t) => (inLift(t, 0, 6) ? 2 : inLift(t, -3, 0) ? 60 : 18));
const speed = rpm(80, (t) => {
  const at = lifts.find((lift) => t >= lift - 3 && t < lift + 6);
  return at === undefined ? 2400 : t < at ? 2400 + 400 * (t - at + 3) : 3600 - 300 * (t - at);
});

describe("lift-offs with a long delay", () => {
  const both = (rate: number): Part[] => [
    even("front-o2", 80, rate, frontWithLifts),
    even("rear-o2", 80, rate, rearHolding(2.4)),
    throttle,
    speed,
  ];

  test("clear the catalyst beside steady running that could be judged", () => {
    const { verdict, statement } = finding(capture(...both(500)), "catalyst");
    expect(statement).toMatch(/2\.400\ss/);
    expect(verdict).toBe("points-away");
  });

  test("alone do not: at five rows a second no steady running can be judged, where a weak catalyst lets go first", () => {
    const { verdict, statement, next } = finding(capture(...both(5)), "catalyst");
    expect(statement).toMatch(/stored oxygen then.*no steady running could be judged/);
    expect(verdict).toBe("cannot-say");
    expect(next.join(" ")).toMatch(/steady cruise/);
  });
});

describe("a rear that falls slowly", () => {
  /** Holds on for so long, then falls exponentially; its time from 0.3 to 0.15 V is `lag` ln 2. */
  const made = (holds: number, lag: number) => {
    const rear = (t: number) => {
      const at = lifts.find((lift) => t >= lift + holds && t < lift + 6.5);
      return at === undefined ? 0.72 + 0.01 * Math.sin(0.8 * t) : 0.72 * Math.exp(-(t - at - holds) / lag);
    };
    return capture(even("front-o2", 80, 500, frontWithLifts), even("rear-o2", 80, 500, rear), throttle, speed);
  };

  test.each([
    [2.4, 0.55, "points-to", "points-away"], // no quick sensor behind a store that lets go little by little falls like that
    [2.4, 1.2, "points-to", "cannot-say"], // more than half a rear so slow nothing explains
    [0.4, 0.55, "points-to", "cannot-say"], // nothing was held for long: the lag is the sensor's
  ] as const)("after holding for %d s, with a lag of %d s: rear %s, catalyst %s", (holds, lag, rear, catalyst) => {
    const { findings } = analyse(made(holds, lag));
    const verdict = (id: FindingId) => findings.find((one) => one.id === id)!.verdict;
    expect([verdict("rear-sensor"), verdict("catalyst")]).toEqual([rear, catalyst]);
  });
});

test("an electric throttle that idles further open than it coasts still idles", () => {
  const idles = (t: number) => t > 60 && t < 140;
  const made = capture(
    even("front-o2", 160, 200, square(1)),
    even("rear-o2", 160, 200, (t) => 0.7 + 0.02 * Math.sin(t / 3)),
    rpm(160, (t) => (idles(t) ? 780 : 2400)),
    even("throttle", 160, 20, (t) => (t < 6 ? 0 : idles(t) ? 12 : 22)),
  );
  const idle = analyse(made, {}, () => {}, withoutStore).stretches.filter(({ kind }) => kind === "idle");
  expect(idle).toHaveLength(1);
  expect(idle[0]!.to - idle[0]!.from).toBeGreaterThan(70);
});

describe("a rear that never falls", () => {
  const parts = [
    even("front-o2", 80, 500, frontWithLifts),
    even("rear-o2", 80, 500, (t) => 0.75 + 0.01 * Math.sin(0.8 * t)),
    throttle,
    speed,
  ];

  test("is not called asleep, and does not clear the catalyst: a stuck sensor would look the same", () => {
    const analysis = analyse(capture(...parts));
    const { statement, next } = analysis.findings.find(({ id }) => id === "rear-sensor")!;
    expect(statement).toMatch(/did not fall in 3 lift-offs either/);
    expect(next.join(" ")).toMatch(/Stay off the throttle for longer/);
    expect(analysis.liftOffs.map(({ rejected }) => rejected)).toEqual(
      Array(3).fill("nothing shows that the rear sensor was awake"),
    );
    expect(analysis.findings.find(({ id }) => id === "catalyst")!.verdict).toBe("cannot-say");
  });
});

describe("behind a wide-band front", () => {
  const hiss = noise(4, 0.001);
  const lambda = even(
    "front-lambda",
    80,
    100,
    (t) => hiss() + (inLift(t, 0, 6) ? 1.99 : inLift(t, -3, 0) ? 0.88 : 1 + 0.02 * Math.sin(9 * t)),
  );
  const air = even("air-flow", 80, 20, () => 6);
  const verdictWith = (rear: (t: number) => number) =>
    finding(capture(lambda, even("rear-o2", 80, 500, rear), throttle, speed, air), "catalyst");

  test("a calm rear at cruise and a long delay clear the catalyst", () => {
    const { verdict, statement, against } = verdictWith(rearHolding(2.4));
    // At 6 g/s 2.4 s of air carry 6 x 2.4 x 0.2314 = 3.3 g (calculated), a ceiling: gas and sensor take their part.
    expect(statement).toMatch(/holds [23]\.?\d*\sg/);
    expect(verdict).toBe("points-away");
    expect(against.some(({ reading }) => reading.startsWith("rear amplitude, cruise"))).toBe(true);
  });

  const busy = (fallsAfter: number) => (t: number) =>
    inLift(t, fallsAfter, 6.5) ? 0.05 : inLift(t, -3, fallsAfter) ? 0.85 : Math.sin(9 * (t - 0.1)) > 0 ? 0.1 : 0.8;

  test("a rear that swings widely and falls at once points to it", () => {
    const { verdict, statement } = verdictWith(busy(0.1));
    expect(statement).toMatch(/this points to the catalyst/);
    expect(verdict).toBe("points-to");
  });

  test("one that swings widely and yet holds on cannot be told", () => {
    expect(verdictWith(busy(2.4)).verdict).toBe("cannot-say");
  });
});

describe("misfire", () => {
  /** 1.5 Hz with shoulders of 60 ms; every so manieth rich swing breaks off after 80 ms instead of 333. */
  const swinging = (every: number) => (t: number) => {
    const [cycle, phase] = [Math.floor(t * 1.5), (t * 1.5) % 1];
    const length = every > 0 && cycle % every === 0 ? 0.12 : 0.5;
    const edge = (x: number) => Math.min(1, Math.max(0, x / 0.09));
    return 0.1 + 0.75 * (phase < length ? edge(phase) : 1 - edge(phase - length));
  };
  const front = (value: (t: number) => number) => {
    const hiss = noise(3, 0.004);
    return even("front-o2", 90, 400, (t) => value(t) + hiss());
  };
  const calm = even("rear-o2", 90, 200, (t) => 0.7 + 0.02 * Math.sin(t));
  const told = (value: (t: number) => number) =>
    finding(
      capture(
        front(value),
        calm,
        rpm(90, () => 2400),
      ),
      "misfire",
    );

  test("is told by rich swings that break off early", () => {
    const { verdict, statement } = told(swinging(8));
    expect(statement).toMatch(/1[67] of 13\d rich swings of the front sensor broke off early/);
    expect(verdict).toBe("points-to");
  });

  test("is not told by even swings", () => {
    const { verdict, statement } = told(swinging(0));
    expect(statement).toMatch(/^None of 13\d rich swings/);
    expect(verdict).toBe("points-away");
  });

  test("is not told where the rear sensor's loop makes rich swings longer and shorter by turns", () => {
    const leaning = (t: number) => {
      const cycle = Math.floor(t * 1.5);
      const [phase, length] = [(t * 1.5) % 1, 0.42 + 0.27 * Math.sin(cycle / 2.5)];
      const edge = (x: number) => Math.min(1, Math.max(0, x / 0.09));
      return 0.1 + 0.75 * (phase < length ? edge(phase) : 1 - edge(phase - length));
    };
    expect(told(leaning).verdict).not.toBe("points-to");
  });

  test("is not told by ripple on the edges, which crosses 0.45 V but does not come from lean", () => {
    const ripple = (t: number) => swinging(0)(t) + 0.14 * Math.sin(2 * Math.PI * 60 * t);
    expect(told(ripple).verdict).not.toBe("points-to");
  });
});

describe("a front that reads lean all the time", () => {
  const lean = even("front-o2", 90, 200, (t) => 0.08 + 0.005 * Math.sin(t));
  const rear = even("rear-o2", 90, 200, (t) => 0.1 + 0.005 * Math.sin(t));
  const trims = [even("short-trim", 90, 5, () => 0), even("long-trim", 90, 5, () => 7)];
  const cruise = rpm(90, () => 2400);

  test("is a lean mixture, or a fault that looks so, where the module closes its loop on it", () => {
    const status = even("fuel-status", 90, 5, () => 2);
    const { verdict, statement } = finding(capture(lean, rear, cruise, status, ...trims), "mixture");
    expect(statement).toMatch(/reads lean all through steady running/);
    expect(verdict).toBe("points-to");
  });

  test("never makes a small trim look near right", () => {
    const { verdict, statement } = finding(capture(lean, rear, cruise, ...trims), "mixture");
    expect(statement).toMatch(/did not switch/);
    expect(verdict).toBe("cannot-say");
  });

  test("lets trims that are alike clear no leak", () => {
    const drive = rpm(90, (t) => (t < 40 ? 800 : 2400));
    const pedal = even("throttle", 90, 20, (t) => (t < 40 ? 2 : 18));
    const { verdict, statement } = finding(capture(lean, rear, drive, pedal, ...trims), "air-leak");
    expect(statement).toMatch(/did not switch/);
    expect(verdict).toBe("cannot-say");
  });
});

describe("a front sensor on a 5 V supply", () => {
  const parts = [
    even("front-o2", 60, 200, (t) => (square(1)(t) > 0.5 ? 0.4 : 4.4)),
    even("rear-o2", 60, 200, (t) => 0.7 + 0.01 * Math.sin(t)),
    rpm(60, () => 2400),
  ];

  test("is named as such, asked about, and not taken for rich by levels that are not its own", () => {
    const analysis = analyse(capture(...parts));
    expect(analysis.stretches.map(({ kind }) => kind)).toEqual(["cruise"]);
    const { verdict, statement, next } = analysis.findings.find(({ id }) => id === "catalyst")!;
    expect(verdict).toBe("cannot-say");
    expect(statement).toMatch(/The front sensor reaches more than 2.2\sV/);
    expect(next.join(" ")).toMatch(/which kind of front sensor the car has/);
  });
});

test("swapped leads accuse no sensor and no mixture: the leads come first", () => {
  const parts = [
    even("front-o2", 80, 200, (t) => 0.75 + 0.02 * Math.sin(0.8 * t)),
    even("rear-o2", 80, 200, square(1.2)),
    rpm(80, () => 2400),
  ];
  const { findings } = analyse(capture(...parts));
  expect(new Set(findings.filter(({ id }) => id !== "recording").map(({ verdict }) => verdict))).toEqual(
    new Set(["cannot-say"]),
  );
  for (const id of ["catalyst", "front-sensor", "mixture"] as const) {
    expect(findings.find((one) => one.id === id)!.statement, id).toMatch(/^Front and rear look swapped/);
  }
});
