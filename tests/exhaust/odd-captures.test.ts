// Captures nobody planned for: nothing throws, every refusal says why, and nothing is claimed that was not recorded.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { roles } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { recordingGuide } from "../../src/exhaust/findings/guide.ts";
import type { Analysis, Finding, FindingId } from "../../src/exhaust/terms/analysis.ts";
import { capture, even, noise, type Part, square } from "./make.ts";

const ids: FindingId[] = ["catalyst", "front-sensor", "rear-sensor", "air-leak", "mixture", "misfire", "recording"];
const found = (analysis: Analysis, id: FindingId): Finding => analysis.findings.find((one) => one.id === id)!;
const rpm = (value: number, seconds = 60) => even("engine-speed", seconds, 10, () => value);

/** Every reading in an analysis, at any depth. */
function readingsIn(
  value: unknown,
): { value: number | null; low: number | null; high: number | null; because?: string; grade: string }[] {
  if (value === null || typeof value !== "object") return [];
  if ("grade" in value && "low" in value) return [value as never];
  return Object.values(value).flatMap(readingsIn);
}

function expectSound(analysis: Analysis): void {
  expect(analysis.findings.map(({ id }) => id)).toEqual(ids);
  for (const { statement, verdict, next } of analysis.findings) {
    expect(statement).toMatch(/^[A-Z0-9].*[.]$/s);
    expect(statement).not.toMatch(/undefined|NaN|null|Infinity|replace the catalyst/i);
    if (verdict === "cannot-say") expect(next.length).toBeGreaterThan(0);
  }
  for (const { value, low, high, grade, because } of readingsIn(analysis)) {
    for (const number of [value, low, high]) expect(number === null || Number.isFinite(number)).toBe(true);
    if (value !== null && low !== null) expect(low).toBeLessThanOrEqual(value);
    if (value !== null && high !== null) expect(high).toBeGreaterThanOrEqual(value);
    if (grade === "not-resolvable") {
      expect(value).toBeNull();
      expect(because!.length).toBeGreaterThan(5);
    }
  }
}

describe("analyse", () => {
  const front = even("front-o2", 60, 200, square(1.5));
  const calm = even("rear-o2", 60, 200, (t) => 0.7 + 0.02 * Math.sin(t / 3));
  const follower = even("rear-o2", 60, 200, square(1.5, 0.1));

  test.each([
    [0, "as without a signal"],
    [1.2, "more than such a sensor gives"],
  ])("sensors that stand at %f V for the whole recording are no store, and no sleeping sensors", (level, how) => {
    const dead = (role: "front-o2" | "rear-o2") => even(role, 240, 10, () => level);
    const said = analyse(capture(dead("front-o2"), dead("rear-o2"), rpm(2000, 240)));
    expect(found(said, "front-sensor")).toMatchObject(
      level === 0
        ? { verdict: "cannot-say", statement: expect.stringMatching("as it does in lean gas") }
        : { verdict: "points-to", statement: expect.stringMatching(`stayed at .+, ${how}, for 240`) },
    );
    expect(found(said, "rear-sensor").statement).toContain(how);
    expect(said.findings.map(({ statement }) => statement).join()).not.toMatch(/bias level/);
    expect(said.store).toBeNull();
  });

  const flat = (role: "front-o2" | "rear-o2", level: number) =>
    even(role, 240, 20, (t) => level + 0.004 * Math.sin(3 * t));
  test.each([
    ["lean front, lean rear", 0.03, 0.05, "cannot-say", "in lean gas"],
    ["lean front, no rear", 0.12, null, "cannot-say", "in lean gas"],
    ["lean front, rear that is rich", 0.03, 0.72, "points-to", "looks faulty"],
    ["rich front, rich rear", 0.82, 0.75, "cannot-say", "in rich gas"],
    ["rich front, rear that is lean", 0.82, 0.06, "points-to", "looks faulty"],
  ])("a sensor is accused only where the gas cannot explain it: %s", (_, front, rear, verdict, says) => {
    const behind = rear === null ? [] : [flat("rear-o2", rear)];
    const said = found(analyse(capture(flat("front-o2", front), ...behind, rpm(2000, 240))), "front-sensor");
    expect(said).toMatchObject({ verdict, statement: expect.stringContaining(says) });
  });

  test.each<[string, Part[]]>([
    ["no channel at all", []],
    ["an empty channel", [even("front-o2", 0, 100, () => 0.5)]],
    ["nothing but missing samples", [even("front-o2", 10, 100, () => NaN), even("rear-o2", 10, 100, () => NaN)]],
    ["one sample", [even("front-o2", 0.01, 100, () => 0.5), even("rear-o2", 0.01, 100, () => 0.5)]],
    ["the rear alone", [follower]],
    ["the front alone", [front]],
    ["engine speed alone", [rpm(800)]],
    ["a flat line", [even("front-o2", 60, 100, () => 0), even("rear-o2", 60, 100, () => 0)]],
    ["three seconds", [even("front-o2", 3, 200, square(1.5)), even("rear-o2", 3, 200, square(1.5, 0.1))]],
    ["one sample a second", [even("front-o2", 60, 1, square(0.7)), even("rear-o2", 60, 1, square(0.7, 0.1))]],
    ["a 5 V sensor", [even("front-o2", 60, 200, (t) => 5 * square(1)(t)), calm]],
    ["swapped leads", [even("front-o2", 60, 200, (t) => -square(1)(t)), calm]],
    ["a wide-band front", [even("front-lambda", 60, 50, (t) => 1 + 0.02 * Math.sin(9 * t)), calm]],
    ["millivolts taken for volts", [even("front-o2", 60, 200, (t) => 1000 * square(1)(t)), calm]],
  ])("of %s throws nothing and points at no catalyst", (_, parts) => {
    const shares: number[] = [];
    const analysis = analyse(capture(...parts), {}, (share) => shares.push(share));
    expectSound(analysis);
    expect(found(analysis, "catalyst").verdict).toBe("cannot-say");
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.every((share) => share >= 0 && share <= 1)).toBe(true);
  });

  test("judges bank 2 where only bank 2 was recorded", () => {
    const parts = [front, follower, rpm(2400)].map((part): Part => ({ ...part, bank: 2 }));
    const analysis = analyse(capture(...parts));
    expect(analysis.bank).toBe(2);
    expect(found(analysis, "catalyst").verdict).toBe("points-to");
    expect(analyse(capture(...parts), { bank: 1 }).sensors).toEqual({ front: null, rear: null });
  });

  test("survives whatever channels hold", () => {
    const value = fc.oneof(
      fc.double({ min: -0.2, max: 1.1, noNaN: true }),
      fc.constant(NaN),
      fc.constant(0.45),
      fc.double({ noDefaultInfinity: true, min: -1e6, max: 1e6 }),
    );
    const part = fc.record({
      role: fc.constantFrom(...roles),
      values: fc.array(value, { maxLength: 60 }),
      step: fc.double({ min: 0.001, max: 5, noNaN: true }),
    });
    const stretchless = fc.array(part, { maxLength: 6 });
    fc.assert(
      fc.property(stretchless, (parts) => {
        const made = parts.map(
          ({ role, values, step }): Part => ({
            role,
            time: { kind: "stamped", stamps: Float64Array.from(values, (_, i) => i * step * (1 + (i % 3) / 10)) },
            samples: Float64Array.from(values),
          }),
        );
        const analysis = analyse(capture(...made));
        expectSound(analysis);
        recordingGuide([{ analysis, rearRate: null }]);
      }),
      { numRuns: 60, seed: 4 },
    );
  });
});

describe("a recording of one kind", () => {
  const front = (seconds: number) => even("front-o2", seconds, 200, square(1));
  const calm = (seconds: number) => even("rear-o2", seconds, 200, (t) => 0.7 + 0.02 * Math.sin(t));
  const follower = (seconds: number) => even("rear-o2", seconds, 200, square(1, 0.1));

  test("at idle never clears the catalyst for cruise", () => {
    const analysis = analyse(capture(front(90), calm(90), rpm(800, 90)));
    expect(analysis.stretches.some(({ kind, fit }) => kind === "idle" && fit)).toBe(true);
    expect(found(analysis, "catalyst").verdict).toBe("cannot-say");
    expect(found(analysis, "catalyst").statement).toMatch(/cruise/);
  });

  test("calm at idle and busy at cruise points to the catalyst and names cruise", () => {
    const rear = even("rear-o2", 120, 200, (t) => (t < 60 ? 0.7 + 0.02 * Math.sin(t) : square(1, 0.1)(t)));
    const speed = even("engine-speed", 120, 10, (t) => (t < 60 ? 800 : 2400));
    const catalyst = found(analyse(capture(front(120), rear, speed)), "catalyst");
    expect(catalyst.verdict).toBe("points-to");
    expect(catalyst.statement).toMatch(/at cruise/);
    expect(catalyst.statement).toMatch(/idle/);
  });

  test("cold is not judged, however busy the rear", () => {
    const coolant = even("coolant-temp", 60, 1, () => 40);
    const analysis = analyse(capture(front(60), follower(60), rpm(900), coolant));
    expect(analysis.stretches.every(({ kind, fit }) => kind === "cold" && !fit)).toBe(true);
    expect(found(analysis, "catalyst").verdict).toBe("cannot-say");
  });

  test("with the engine off says so", () => {
    const hiss = noise(2, 0.005);
    const bias = (role: "front-o2" | "rear-o2") => even(role, 30, 100, () => 0.45 + hiss());
    const analysis = analyse(capture(bias("front-o2"), bias("rear-o2"), rpm(0, 30)));
    expect(analysis.stretches.map(({ kind }) => kind)).toEqual(["not-running"]);
    expect(found(analysis, "catalyst").verdict).toBe("cannot-say");
  });

  // Common practice: 0.45 V from key-on is the module's bias, not a mixture.
  test("of a front that rests at 0.45 V from key-on for 30 s says bias, not stuck", () => {
    const hiss = noise(5, 0.005);
    const analysis = analyse(
      capture(
        even("front-o2", 30, 100, () => 0.45 + hiss()),
        calm(30),
        rpm(900, 30),
      ),
    );
    expect(analysis.awake.front!.bias.value!).toBeCloseTo(0.45, 2);
    expect(analysis.awake.front!.awakeFrom).toBeNull();
    const { verdict, statement } = found(analysis, "front-sensor");
    expect(verdict).toBe("cannot-say");
    expect(statement).toMatch(/bias/);
    expect(statement).not.toMatch(/stuck/);
  });

  test("with holes measures on both sides of them, never across", () => {
    const holed = (part: Part): Part => ({ ...part, samples: part.samples.map((v, i) => (i % 2000 < 300 ? NaN : v)) });
    const whole = analyse(capture(holed(front(120)), holed(follower(120)), rpm(2400, 120)));
    expect(whole.sensors.front!.frequency.value!).toBeCloseTo(1, 1);
    expect(whole.whole!.lag.value!).toBeCloseTo(0.1, 2);
  });
});

describe("recordingGuide", () => {
  test("gives the whole plan for an empty job, cautions first", () => {
    const guide = recordingGuide([]);
    expect(guide.steps.every(({ done }) => !done)).toBe(true);
    expect(guide.cautions.join(" ")).toMatch(/hot|500 °C/);
    expect(guide.cautions.join(" ")).toMatch(/second person/);
    expect(guide.next).not.toBe("");
  });

  test("ticks off an idle that can be judged, and names what is missing", () => {
    const made = capture(
      even("front-o2", 90, 200, square(1)),
      even("rear-o2", 90, 200, (t) => 0.7 + 0.02 * Math.sin(t)),
      rpm(800, 90),
    );
    const guide = recordingGuide([{ analysis: analyse(made), rearRate: 200 }]);
    expect(guide.steps.find(({ id }) => id === "idle")!.done).toBe(true);
    expect(guide.steps.find(({ id }) => id === "cruise")!.missing).toMatch(/cruise/);
  });
});
