// The store in grams, against closed forms on hand-made recordings.

import { describe, expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import { capture, even, noise, square } from "./make.ts";

/** Pulls of three seconds, fuel cut for five, at these times, s; between them the loop switches at 1.2 Hz. */
const lifts = [16, 32, 48];
const since = (t: number) => t - (lifts.find((at) => t >= at - 3 && t < at + 5) ?? Number.POSITIVE_INFINITY);
const seconds = 60;
const flow = 6;

/**
 * A rear that falls `delay` s after the front in a cut, and otherwise rests (`follows` false) or goes with the front.
 * Closed form: oxygen of air for the delay is flow x 0.2314 x delay.
 */
function car(rate: number, delay: number, follows: boolean) {
  const [a, b] = [noise(3, 0.004), noise(5, 0.004)];
  const front = (t: number) => (since(t) >= 0 ? 0.03 : since(t) >= -3 ? 0.88 : square(1.2, 0.1)(t));
  const loop = (t: number) => (follows ? front(t - 0.1) : 0.68);
  const rear = (t: number) => (since(t) >= delay ? 0.03 : since(t) >= -2.5 ? 0.85 : loop(t));
  return capture(
    even("front-o2", seconds, rate, (t) => front(t) + a()),
    even("rear-o2", seconds, rate, (t) => rear(t) + b()),
    even("air-flow", seconds, Math.min(rate, 20), () => flow),
    even("throttle", seconds, Math.min(rate, 20), (t) => (since(t) >= 0 ? 2 : since(t) >= -3 ? 70 : 15)),
    even("engine-speed", seconds, Math.min(rate, 20), (t) =>
      since(t) >= 0 ? 3400 - 350 * since(t) : since(t) >= -3 ? 3400 + 300 * since(t) : 2300,
    ),
  );
}

describe("the store in grams", () => {
  // 6 g/s x 0.2314 x 1.2 s = 1.67 g (calculated): a ceiling, for gas travel and the rear's own lag take their part of it.
  test.each([200, 10])("of a rear that holds on for 1.2 s at 6 g/s is near 1.67 g, at %d samples/s", (rate) => {
    const { store, findings } = analyse(car(rate, 1.2, false));
    expect(store?.unit).toBe("g");
    expect(store!.high ?? 9).toBeGreaterThan(1.3);
    expect(store!.low!).toBeLessThan(1.67);
    // As much may lie in the gas on the way, and in how slowly a cut's air displaces what was burnt before it.
    expect(store!.low!).toBeGreaterThan(0.15);
    expect(findings[0]!.verdict).toBe("points-away");
    expect(findings[0]!.explanation).toMatchObject({ best: "sound", asGood: null });
  });

  // 6 g/s x 0.2314 x 0.1 s = 0.14 g (calculated), a ceiling. Of steps without any lag, as no sensor shows them, 200 rows tell less.
  test.each([
    [200, 1.5],
    [10, 0.35],
  ])("of a rear that follows within 0.1 s is dead, at %d samples/s told as less than %d g", (rate, most) => {
    const { store, findings } = analyse(car(rate, 0.1, true));
    expect(store!.high!).toBeLessThan(most);
    expect(findings[0]!.verdict).toBe("points-to");
    expect(findings[0]!.explanation).toMatchObject({ best: "dead", asGood: null });
  });

  test("is told behind a wide-band front that was recorded as its pump current, by its sign alone", () => {
    const pumped = (delay: number) => {
      const { channels, ...rest } = car(100, delay, false);
      const hiss = noise(7, 0.004);
      const current = (t: number) => (since(t) >= 0 ? 2.5 : since(t) >= -3 ? -0.6 : 0.02 * Math.sin(8 * t));
      const front = capture(even("front-lambda", seconds, 100, (t) => current(t) + hiss())).channels[0]!;
      return analyse({ ...rest, channels: [{ ...front, id: "pump", unit: "mA" }, ...channels.slice(1)] });
    };
    const { store, liftOffs, findings } = pumped(1.2);
    expect(liftOffs.map(({ delay }) => Math.round(10 * delay.value!) / 10)).toEqual([1.2, 1.2, 1.2]);
    expect(store!.high ?? 9).toBeGreaterThan(1.3);
    expect(findings[0]!.verdict).toBe("points-away");
    expect(JSON.stringify(findings)).not.toMatch(/No channel stands for the front/);
    expect(pumped(0.1).findings[0]!.verdict).not.toBe("points-away");
  }, 60_000);

  test("is told for each litre of an engine whose size is known", () => {
    const made = car(10, 1.2, false);
    const [plain, sized] = [analyse(made), analyse(made, { litres: 2 })];
    expect(plain.storePerLitre).toBeNull();
    // The air flow was recorded: its size changes nothing of the store.
    expect(sized.store).toEqual(plain.store);
    expect(sized.storePerLitre).toMatchObject({ unit: "g/l", grade: plain.store!.grade, low: plain.store!.low! / 2 });
    expect(JSON.stringify(sized.findings)).toContain("for each litre of engine");
  });

  test("is bounded closer by the engine's size where the air flow has to be worked out", () => {
    const made = car(10, 1.2, false);
    const unknown = { ...made, channels: made.channels.filter(({ role }) => role !== "air-flow") };
    const [plain, sized] = [analyse(unknown), analyse(unknown, { litres: 1.8 })];
    expect(sized.storeStudy!.airDoubt).toBeLessThan(plain.storeStudy!.airDoubt);
    expect(sized.store!.low!).toBeGreaterThan(plain.store!.low!);
    expect(sized.findings[0]!.statement).toContain("this engine of 1.8\u00a0l");
    expect(plain.findings[0]!.statement).toContain("an engine of usual size");
    const asks = ({ findings }: typeof plain) =>
      findings.flatMap(({ next }) => next).some((step) => /engine's size/.test(step));
    expect([asks(plain), asks(sized)]).toEqual([true, false]);
  });

  test("is not told in grams where nothing explains what the rear did", () => {
    const { channels, ...rest } = car(10, 1.2, false);
    const alien = square(0.23);
    const rear = even("rear-o2", seconds, 10, alien);
    const made = {
      ...rest,
      channels: channels.map((one) => (one.role === "rear-o2" ? capture(rear).channels[0]! : one)),
    };
    const { store, storeStudy, findings } = analyse(made);
    expect(storeStudy!.explained).toBeLessThan(0.6);
    expect(store).toMatchObject({ grade: "not-resolvable", value: null, low: null, high: null });
    expect(store!.because).toMatch(/explains \d+ % of what the rear sensor did: too little/);
    expect(findings[0]!.verdict).toBe("cannot-say");
  });

  test("is not told without a front sensor", () => {
    const { channels, ...rest } = car(10, 1, false);
    expect(analyse({ ...rest, channels: channels.filter(({ role }) => role !== "front-o2") }).store).toBeNull();
  });
});
