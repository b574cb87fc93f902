// What is said of a delay: never that something held on for no time at all; of the store: the catalyst first, then what stands for air.

import { expect, test } from "vitest";
import { delaySentence } from "../../src/exhaust/findings/catalyst-words.ts";
import { storeSentence } from "../../src/exhaust/findings/store-words.ts";
import { usualGuess } from "../../src/exhaust/store/unknowns.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import type { StoreStudy } from "../../src/exhaust/terms/store-study.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";

const atLeast = (low: number): Reading => ({ value: low, low, high: null, unit: "s", grade: "at-least" });
const said = (delay: Reading, count: number): string =>
  delaySentence({ verdict: "between", delay, count, airFlow: null, stored: null }).replaceAll("\u00a0", " ");

test.each([
  [0.8, 3, "After lifting off the rear held on for at least 0.8 s (3 lift-offs)."],
  [0, 8, "How long the rear held on after lifting off cannot be told (8 lift-offs, for they do not agree)."],
  [0, 1, "How long the rear held on after lifting off cannot be told (one lift-off)."],
])("at least %d s in %d lift-offs", (low, count, sentence) => expect(said(atLeast(low), count)).toBe(sentence));

test.each([
  [true, null],
  [false, null],
  [false, 1.6],
])(
  "a store without an air flow, air unknown: %s, engine: %s l, speaks of the catalyst first",
  (isAirUnknown, litres) => {
    const study: StoreStudy = {
      reading: { value: 0.06, low: 0.01, high: 0.3, unit: "g", grade: "measured" },
      near: { low: 0.01, high: 0.2 },
      asTaken: { low: 0.01, high: 0.2 },
      best: { guess: { ...usualGuess(false), store: 0.06 }, cost: 100 },
      value: 0.06,
      ...{ explained: 0.96, leak: null, quickRear: null, margin: 15, air: "taken", airDoubt: 2, cuts: 3, row: 0.005 },
      ...{ seconds: 120, isAirUnknown, litres },
    } as StoreStudy;
    const said = storeSentence(study, limitsInForce({}));
    expect(said).toMatch(/^The catalyst holds 0\.06/);
    expect(said).toContain("no air flow was recorded");
  },
);
