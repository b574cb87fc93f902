// Banks in each other's place, on two loops of the plainest kind: the trim goes down while its front is rich, up while it is lean.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Capture } from "../../src/capture/model/capture.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { capture, noise, rows, withoutStore } from "./make.ts";

interface Loop {
  readonly delay: number;
  readonly seed: number;
}

const seconds = 120;

/** Front, V, and short trim, %, in rows: an integrator behind a dead time, as in any text on oscillating loops. */
function loop({ delay, seed }: Loop, rate: number) {
  const step = 0.01;
  const hiss = noise(seed, 0.003);
  const mixture: number[] = [];
  const [front, trim, stamps]: [number[], number[], number[]] = [[], [], []];
  let now = 0.3;
  for (let i = 0; i < seconds / step; i++) {
    mixture.push(now);
    const seen = mixture[Math.max(0, i - Math.round(delay / step))]!;
    now += (seen > 0 ? -1 : 1) * 4 * step;
    if (i % Math.round(1 / rate / step) !== 0) continue;
    stamps.push(i * step);
    front.push(0.45 + 0.4 * Math.tanh(4 * seen) + hiss());
    trim.push(Math.round(now / 0.78) * 0.78);
  }
  return { stamps, front, trim };
}

interface Car {
  readonly rate: number;
  readonly banks: readonly [Loop, Loop];
  readonly isSwapped: boolean;
  readonly trims?: 1 | 2;
}

function car({ rate, banks, isSwapped, trims = 2 }: Car): Capture {
  const [one, two] = banks.map((bank) => loop(bank, rate)) as [ReturnType<typeof loop>, ReturnType<typeof loop>];
  const { stamps } = one;
  const speed = stamps.map(() => 2000);
  const part = (role: "front-o2" | "rear-o2" | "short-trim", bank: 1 | 2, values: readonly number[]) => ({
    ...rows(role, stamps, values),
    bank,
    name: `${role} ${bank}`,
  });
  return capture(
    part("front-o2", isSwapped ? 2 : 1, one.front),
    part("front-o2", isSwapped ? 1 : 2, two.front),
    part(
      "rear-o2",
      1,
      stamps.map(() => 0.7),
    ),
    part(
      "rear-o2",
      2,
      stamps.map(() => 0.7),
    ),
    part("short-trim", 1, one.trim),
    ...(trims === 2 ? [part("short-trim", 2, two.trim)] : []),
    rows("engine-speed", stamps, speed),
  );
}

const statements = (made: Capture, bank: 1 | 2 = 1) => analyse(made, { bank }, () => {}, withoutStore).findings;
const banks: Car["banks"] = [
  { delay: 0.3, seed: 1 },
  { delay: 0.41, seed: 2 },
];

describe("banks in each other's place", () => {
  test.each([1, 2] as const)("are seen from bank %d, and nothing else is said until they are put right", (bank) => {
    const findings = statements(car({ rate: 10, banks, isSwapped: true }), bank);
    expect(findings[0]).toMatchObject({ verdict: "cannot-say", explanation: { best: "swapped-banks" } });
    expect(findings.slice(0, -1).every(({ statement }) => /look swapped/.test(statement))).toBe(true);
  });

  test("are seen by one trim alone", () => {
    const [catalyst] = statements(car({ rate: 10, banks, isSwapped: true, trims: 1 }));
    expect(catalyst!.explanation?.best).toBe("swapped-banks");
  });

  test("are not told where both switch in step, nor by rows that are too far apart", () => {
    const inStep: Car["banks"] = [banks[0], { ...banks[0], seed: 3 }];
    expect(JSON.stringify(statements(car({ rate: 10, banks: inStep, isSwapped: true })))).not.toMatch(
      /banks? .*swapped/i,
    );
    expect(JSON.stringify(statements(car({ rate: 0.5, banks, isSwapped: true })))).not.toMatch(/banks? .*swapped/i);
  });

  test("are never told of banks that are in their places, at any rate", () => {
    const delay = fc.double({ min: 0.15, max: 0.8, noNaN: true });
    fc.assert(
      fc.property(delay, delay, fc.constantFrom(1, 2, 5, 10, 20), (a, b, rate) => {
        const right: Car["banks"] = [
          { delay: a, seed: 1 },
          { delay: b, seed: 2 },
        ];
        expect(statements(car({ rate, banks: right, isSwapped: false }))[0]!.explanation?.best).not.toBe(
          "swapped-banks",
        );
      }),
      { numRuns: 12 },
    );
  });
});
