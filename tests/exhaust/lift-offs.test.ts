// Lift-offs: found by rule, timed with bounds that the sampling allows, and put right by hand.

import { describe, expect, test } from "vitest";
import { summariseLiftOffs } from "../../src/exhaust/lift-offs/lift-offs.ts";
import type { LiftOffEdit } from "../../src/exhaust/terms/analysis.ts";
import { capture, even, findLiftOffs, liftOff, rows, square } from "./make.ts";

const front = even("front-o2", 40, 1000, liftOff(20, 26));
const rear = even("rear-o2", 40, 1000, (t) => (t < 21.2 || t > 26.4 ? 0.75 : 0.08));
const throttle = even("throttle", 40, 50, (t) => (t > 17 && t < 19.9 ? 80 : 12));
const speed = even("engine-speed", 40, 50, (t) =>
  t < 17 ? 2000 : t < 19.9 ? 2000 + 690 * (t - 17) : Math.max(1200, 4000 - 400 * (t - 19.9)),
);
const air = even("air-flow", 40, 50, () => 10);

describe("findLiftOffs", () => {
  test("finds the one fall that lasts, and times it", () => {
    const [event, ...more] = findLiftOffs(capture(front, rear, throttle, speed, air), 1);
    expect(more).toEqual([]);
    expect(event!.frontFall.value!).toBeCloseTo(20, 2);
    expect(event!.rearFall.value!).toBeCloseTo(21.2, 2);
    expect(event!.delay.low!).toBeLessThanOrEqual(1.2);
    expect(event!.delay.high!).toBeGreaterThanOrEqual(1.2);
    expect(event!.at).toBeCloseTo(19.9, 1);
    expect(event!.fuelCut).toBe("likely");
    expect(event!.valid).toBe(true);
    // By hand: 0.2314 x 10 g/s x 1.2 s = 2.777 g, ± 10 %.
    expect(event!.storedOxygen.value!).toBeCloseTo(2.777, 1);
    expect(event!.storedOxygen.low!).toBeLessThan(0.91 * 2.777);
    expect(event!.storedOxygen.high!).toBeGreaterThan(1.09 * 2.777);
    expect(event!.storedOxygen.because).toMatch(/transport.*likely/);
  });

  test("takes an ordinary half-cycle for none, however slow the loop", () => {
    expect(findLiftOffs(capture(even("front-o2", 60, 100, square(0.3))), 1)).toEqual([]);
    // Rule: longer than 1.5 x the longest lean half-cycle before. Half-cycles of 2 s: a fall of 2.5 s is none, of 3.5 s is one.
    const slow = (back: number) => (t: number) => (t < 30 ? square(0.25)(t) : t < 32 || t >= back ? 0.85 : 0.05);
    expect(findLiftOffs(capture(even("front-o2", 45, 100, slow(34.5))), 1)).toHaveLength(0);
    expect(findLiftOffs(capture(even("front-o2", 45, 100, slow(35.5))), 1)).toHaveLength(1);
  });

  test("takes the first half-cycle of a slow loop for none where throttle and engine speed show idle", () => {
    // Nothing before it says how long half-cycles are, and it is twice as long as those that follow.
    const slowIdle = even("front-o2", 40, 100, (t) => (t < 2 ? 0.85 : t < 4.2 ? 0.05 : square(0.5)(t - 4.2)));
    const idling = [even("throttle", 40, 20, (t) => (t < 1 ? 0 : 12)), even("engine-speed", 40, 20, () => 780)];
    const [first] = findLiftOffs(capture(slowIdle), 1);
    expect(first!.fuelCut).toBe("unknown");
    expect(findLiftOffs(capture(slowIdle, ...idling), 1)).toEqual([]);
  });

  test("takes a lean spell for none while the loop is said to be closed, unless the throttle shows a cut", () => {
    // Open loop once, before all: a status that never changes would say nothing.
    const closed = even("fuel-status", 40, 10, (t) => (t < 1 ? 1 : 2));
    const still = even("throttle", 40, 50, () => 20);
    expect(findLiftOffs(capture(front, rear, still, closed), 1)).toEqual([]);
    expect(findLiftOffs(capture(front, rear, throttle, speed, closed), 1)[0]!.fuelCut).toBe("likely");
    expect(findLiftOffs(capture(front, rear, closed), 1)).toHaveLength(1);
  });

  test("says at least where the rear never fell before fuel returned", () => {
    const held = even("rear-o2", 40, 1000, () => 0.75);
    const moved = even("rear-o2", 40, 1000, (t) => (t < 5 ? 0.1 : 0.75));
    for (const one of [held, moved]) {
      const [event] = findLiftOffs(capture(front, one, air), 1);
      expect(event!.delay.grade).toBe("at-least");
      expect(event!.delay.low!).toBeCloseTo(6, 2);
      expect(event!.delay.high).toBeNull();
    }
  });

  test("gives oxygen as at most where nothing shows a cut, and none without air flow", () => {
    const [shown] = findLiftOffs(capture(front, rear, air), 1);
    expect(shown!.fuelCut).toBe("unknown");
    expect(shown!.storedOxygen.grade).toBe("at-most");
    expect(shown!.storedOxygen.low).toBe(0);
    const [bare] = findLiftOffs(capture(front, rear), 1);
    expect(bare!.storedOxygen.grade).toBe("not-resolvable");
    expect(bare!.storedOxygen.because).toMatch(/air flow/);
  });

  test("takes fuel system status 4 and a shut injector for proof", () => {
    const status = even("fuel-status", 40, 10, (t) => (t > 20 && t < 26 ? 4 : 2));
    expect(findLiftOffs(capture(front, rear, status), 1)[0]!.fuelCut).toBe("proven");
    const injector = { ...even("other", 40, 100, (t) => (t > 20 && t < 26 ? 0 : 2.5)), name: "Inj. pulse width" };
    expect(findLiftOffs(capture(front, rear, injector), 1)[0]!.fuelCut).toBe("proven");
  });

  test("measures nothing across a gap", () => {
    const hole = { ...rear, samples: rear.samples.map((v, i) => (i > 20_500 && i < 23_000 ? NaN : v)) };
    const [event] = findLiftOffs(capture(front, hole), 1);
    expect(event!.delay.grade).toBe("at-least");
    expect(event!.delay.low!).toBeCloseTo(0.5, 2);
    expect(event!.rearFall.grade).toBe("not-resolvable");
    const frontHole = { ...front, samples: front.samples.map((v, i) => (i > 19_500 && i < 20_500 ? NaN : v)) };
    expect(findLiftOffs(capture(frontHole, rear), 1)).toEqual([]);
    // With the foot and the engine to tell that there was one, it is listed with what is missing.
    const [missed, ...more] = findLiftOffs(capture(frontHole, rear, throttle, speed), 1);
    expect(missed).toMatchObject({
      valid: false,
      setAside: "rule",
      rejected: expect.stringMatching(/not being recorded/),
    });
    expect(more).toEqual([]);
  });

  test("says so where the rear was lean already", () => {
    const lean = even("rear-o2", 40, 1000, (t) => (t < 10 ? 0.8 : 0.2));
    const [event] = findLiftOffs(capture(front, lean), 1);
    expect(event!.delay.grade).toBe("not-resolvable");
    expect(event!).toMatchObject({ valid: false, setAside: "rule" });
    expect(event!.rejected).toMatch(/lean already/);
    expect(event!.remarks.join(" ")).toMatch(/lean already/);
  });

  test("takes a wide-band front by lambda above 1.1", () => {
    const lambda = even("front-lambda", 40, 100, (t) => (t > 20 && t < 26 ? 1.999 : t > 17 && t < 20 ? 0.9 : 1));
    const [event] = findLiftOffs(capture(lambda, rear), 1);
    expect(event!.frontFall.value!).toBeCloseTo(20, 1);
    expect(event!.delay.value!).toBeCloseTo(1.2, 1);
    expect(event!.fuelCut).toBe("proven");
  });
});

describe("a 1 Hz log whose falls lie in neighbouring rows", () => {
  const stamps = Array.from({ length: 40 }, (_, i) => i);
  const frontRows = stamps.map((t) => (t > 20 && t < 29 ? 0.05 : 0.85));
  const rearRows = stamps.map((t) => (t > 21 && t < 30 ? 0.08 : 0.75));
  const delayWith = (doubt?: { early: number; late: number }) =>
    findLiftOffs(capture(rows("front-o2", stamps, frontRows, doubt), rows("rear-o2", stamps, rearRows, doubt)), 1)[0]!
      .delay;

  // By reasoning: front between rows 20 and 21, rear between 21 and 22.
  test("says 0 to 2 s when its rows are simultaneous", () => {
    const delay = delayWith();
    expect(delay.low).toBe(0);
    expect(delay.high!).toBeCloseTo(2, 6);
  });

  // Each value may be a row older than its stamp, which adds one row either way.
  test("says 0 to 3 s when the order of asking is unknown", () => {
    const delay = delayWith({ early: 1, late: 0 });
    expect(delay.low).toBe(0);
    expect(delay.high!).toBeCloseTo(3, 6);
  });
});

describe("edits by hand", () => {
  const made = capture(front, rear);
  const edited = (...edits: LiftOffEdit[]) => findLiftOffs(made, 1, edits);

  test("keep a rejected one listed, with its reason, and out of the summary", () => {
    const list = edited({ kind: "reject", id: "1", because: "gear change" });
    expect(list.map(({ rejected }) => rejected)).toEqual(["gear change"]);
    expect(summariseLiftOffs(list)).toBeNull();
    expect(edited({ kind: "reject", id: "1", because: "x" }, { kind: "accept", id: "1" })[0]!.rejected).toBeNull();
  });

  test("cannot make a rule's refusal vanish unasked, and may overrule it", () => {
    const brief = even("front-o2", 40, 1000, liftOff(20, 26, 19.7));
    const short = (...edits: LiftOffEdit[]) => findLiftOffs(capture(brief, rear), 1, edits)[0]!;
    expect(short()).toMatchObject({ valid: false, setAside: "rule" });
    expect(short().rejected).toMatch(/rich for only .* before/);
    // Where nothing else counts, its delay is still told; beside one that counts it is left out.
    expect(summariseLiftOffs([short()])!.delay).toMatchObject({ ...short().delay, count: 1 });
    expect(summariseLiftOffs([short(), ...edited()])).toEqual(summariseLiftOffs(edited()));
    expect(short({ kind: "reject", id: "1", because: "braked" })).toMatchObject({
      rejected: "braked",
      setAside: "hand",
    });
    expect(short({ kind: "accept", id: "1" })).toMatchObject({ rejected: null, setAside: null, valid: true });
  });

  test("add and move to the nearest fall of the front", () => {
    const added = edited({ kind: "add", id: "mine", at: 10.4 });
    expect(added.map(({ id }) => id)).toEqual(["mine", "1"]);
    expect(added[0]!.frontFall.value!).toBeCloseTo(10.5, 2);
    expect(added[0]!.origin).toBe("user");
    const moved = edited({ kind: "move", id: "1", at: 12.6 });
    expect(moved[0]!.frontFall.value!).toBeCloseTo(12.5, 2);
  });

  test("of an event that is not there change nothing", () => {
    expect(edited({ kind: "reject", id: "9", because: "x" })).toEqual(edited());
  });
});

describe("summariseLiftOffs", () => {
  test("is the median over events, and asks for three", () => {
    const summary = summariseLiftOffs(findLiftOffs(capture(front, rear, throttle, speed, air), 1))!;
    expect(summary.delay.value!).toBeCloseTo(1.2, 2);
    expect(summary.spread).toBeNull();
    expect(summary.more).toBe(2);
  });
});
