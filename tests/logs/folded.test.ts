// Pairs of true and sampled rates, near-synchronous ones among them: nothing slow is claimed of a swing that may be fast.

import { expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import type { Reading } from "../../src/signal/numbers/reading.ts";
import { random } from "../reference/recorders.ts";
import { someFolded } from "./folded.ts";

const pairs = Number(process.env.FOLDED_PAIRS ?? 45);

const isFalse = ({ grade, low, high }: Reading, truth: number): boolean =>
  grade !== "not-resolvable" && !((low ?? -Infinity) <= truth * 1.0001 && truth * 0.9999 <= (high ?? Infinity));

test("a folded swing is measured falsely in at most 5 % of pairs, and accuses nothing", () => {
  let wrong = 0;
  const accused: string[] = [];
  for (let k = 0; k < pairs; k++) {
    const { capture, frequency, rate, edge, swing } = someFolded(random(300 + k), k);
    const { sensors, stretches, findings } = analyse(capture, { bank: 1 });
    const front = sensors.front!;
    const health = stretches.flatMap((one) => one.front ?? []);
    const isWrong =
      isFalse(front.frequency, frequency) ||
      isFalse(front.richToLean, edge) ||
      isFalse(front.leanToRich, edge) ||
      isFalse(front.amplitude, swing) ||
      health.some(
        ({ period, betweenTransitions }) =>
          isFalse(period, 1 / frequency) || isFalse(betweenTransitions, 0.5 / frequency),
      );
    if (isWrong) wrong++;
    // What is true may be said: a rear that follows, and a cycle of more than 3 s.
    const isTrue = (id: string) => (id === "catalyst" && k % 2 === 0) || (id === "front-sensor" && frequency < 1 / 3);
    for (const { id, verdict, statement } of findings) {
      if (verdict === "points-to" && id !== "recording" && !isTrue(id))
        accused.push(`${frequency} at ${rate}: ${statement}`);
    }
  }
  expect(accused).toEqual([]);
  expect(wrong).toBeLessThanOrEqual(0.05 * pairs);
});
