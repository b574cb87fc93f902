// What is said of a delay: never that something held on for no time at all.

import { expect, test } from "vitest";
import { delaySentence } from "../../src/exhaust/findings/catalyst-words.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";

const atLeast = (low: number): Reading => ({ value: low, low, high: null, unit: "s", grade: "at-least" });
const said = (delay: Reading, count: number): string =>
  delaySentence({ verdict: "between", delay, count, airFlow: null }).replaceAll("\u00a0", " ");

test.each([
  [0.8, 3, "After lifting off the rear held on for at least 0.8 s (3 lift-offs)."],
  [0, 8, "How long the rear held on after lifting off cannot be told (8 lift-offs, for they do not agree)."],
  [0, 1, "How long the rear held on after lifting off cannot be told (one lift-off)."],
])("at least %d s in %d lift-offs", (low, count, sentence) => expect(said(atLeast(low), count)).toBe(sentence));
