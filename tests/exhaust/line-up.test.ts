// Lining up: on events, on correlation, by hand. Two recordings whose shift is known by construction.

import { describe, expect, test } from "vitest";
import { around, firstCrossing, shiftByCorrelation, shiftByEvents } from "../../src/exhaust/lining-up/line-up.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";
import { even, liftOff, noise, type Part, rows } from "./make.ts";

/** What is 4.321 s later in the suspect. */
const shift = 4.321;

/** A fall and a rise of a first-order sensor: tau 0.05 s, so that the edges hold many samples. */
const falls = (t: number) => (t < 10 ? 0.85 : t < 14 ? 0.05 + 0.8 * Math.exp(-(t - 10) / 0.05) : 0.85);

const suspect = (seed: number) => {
  const draw = noise(seed, 0.005);
  return even("front-o2", 30, 500, (t) => falls(t - shift) + draw());
};
const reference = (seed: number) => {
  const draw = noise(seed + 1000, 0.005);
  return even("front-o2", 24, 190, (t) => falls(t) + draw());
};

const holds = ({ low, high }: Reading, truth: number) => low! <= truth && truth <= high!;
const overlap = (a: Reading, b: Reading) => a.low! <= b.high! && b.low! <= a.high!;

describe("lining up", () => {
  test("by the event and by correlation agree within their bounds, and both hold the truth, rates apart", () => {
    const seeds = Array.from({ length: 40 }, (_, k) => k + 1);
    const judged = seeds.map((seed) => {
      const [mine, theirs] = [suspect(seed), reference(seed)];
      const events = [firstCrossing(mine, 12, 0.45), firstCrossing(theirs, 8, 0.45)] as const;
      const byEvent = shiftByEvents(events[0], events[1], "fall on fall").shift;
      const rule = { guess: 4.2, most: 1, says: "" };
      const byCorrelation = shiftByCorrelation(around(mine, 14.3, 6), around(theirs, 10.1, 7), rule).shift;
      return [holds(byEvent, shift), holds(byCorrelation, shift), overlap(byEvent, byCorrelation)];
    });
    for (const k of [0, 1, 2])
      expect(judged.filter((one) => one[k]).length / seeds.length).toBeGreaterThanOrEqual(0.95);
  });

  test("leaves samples and stamps as they are, and keeps a polled log's step in the bounds", () => {
    const stamps = Array.from({ length: 60 }, (_, i) => i / 2);
    const polled = rows("front-o2", stamps, stamps.map(liftOff(15.2, 20)));
    const before = [...polled.samples];
    const found = firstCrossing(polled, 13.9, 0.45);
    expect([...polled.samples]).toEqual(before);
    expect(holds(found, 15.2)).toBe(true);
    const { shift: told } = shiftByEvents(
      found,
      firstCrossing(even("front-o2", 20, 100, liftOff(10, 15)), 8.9, 0.45),
      "",
    );
    expect(holds(told, 5.2)).toBe(true);
    expect(told.high! - told.low!).toBeGreaterThan(0.4);
  });

  test("finds the correlation's shift as a second implementation does: every shift tried, sum by sum", () => {
    const [mine, theirs] = [suspect(3), even("front-o2", 24, 500, falls)];
    const told = shiftByCorrelation(mine, theirs, { guess: 4.2, most: 0.5, says: "" }).shift.value!;
    expect(Math.abs(told - bestByTrying(mine, theirs, [3.8, 4.7]))).toBeLessThanOrEqual(0.002 / 2 + 0.0002);
  });

  test("says so where there is no crossing, or nothing alike", () => {
    expect(
      firstCrossing(
        even("front-o2", 5, 100, () => 0.7),
        1,
        0.45,
      ).grade,
    ).toBe("not-resolvable");
    const flat = even("front-o2", 20, 100, () => 0.7);
    const { shift: told } = shiftByCorrelation(flat, reference(1), { guess: 0, most: 1, says: "" });
    expect(told.grade).toBe("not-resolvable");
  });
});

/** Pearson's correlation of what overlaps, at each whole step of 0.002 s; the shift where it is highest. */
function bestByTrying(a: Part, b: Part, [from, to]: readonly [number, number]): number {
  let best = { shift: NaN, height: -Infinity };
  for (let k = Math.round(from * 500); k <= Math.round(to * 500); k++) {
    const pairs = [...b.samples].flatMap((y, i) => (i + k < a.samples.length ? [[a.samples[i + k]!, y] as const] : []));
    const mean = (pick: 0 | 1) => pairs.reduce((sum, pair) => sum + pair[pick], 0) / pairs.length;
    const [ma, mb] = [mean(0), mean(1)];
    const sum = (term: (x: number, y: number) => number) => pairs.reduce((s, [x, y]) => s + term(x - ma, y - mb), 0);
    const height = sum((x, y) => x * y) / Math.sqrt(sum((x) => x * x) * sum((_, y) => y * y));
    if (height > best.height) best = { shift: k / 500, height };
  }
  return best.shift;
}
