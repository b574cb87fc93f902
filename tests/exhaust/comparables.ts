// Comparables of which nothing is known but their lift-offs and a verdict.

import type { Comparable, ComparedLiftOff } from "../../src/exhaust/comparing/comparison.ts";
import { measured, type Reading } from "../../src/signal/numbers/reading.ts";

const second = measured(1, [0.9, 1.1], "s");

export interface MadeLiftOff {
  readonly airFlow?: number;
  readonly engineSpeed?: number;
  readonly delay?: Reading;
  readonly storedOxygen?: Reading;
}

export function recording(
  name: string,
  events: readonly MadeLiftOff[],
  verdict: NonNullable<Comparable["finding"]>["verdict"] | null = null,
): Comparable {
  const liftOffs = events.map(
    ({ airFlow = 10, engineSpeed = 2000, delay = second, storedOxygen = measured(1, [0.9, 1.1], "g") }, i) =>
      ({
        ...{ id: `${i}`, at: 10 * i, frontFall: second, delay, storedOxygen, richAgain: second },
        ...{ rearSwitch: second, airFlow, engineSpeed, fuelCut: "proven" },
      }) satisfies ComparedLiftOff,
  );
  const finding = verdict ? { verdict, statement: verdict } : null;
  const sensor = { kind: "narrow-band", rate: 1000, polled: false, woke: second } as const;
  const none = { coolant: null, catalystTemperature: null, stretches: [] };
  return { name, bank: 1, warmth: "known", front: sensor, rear: sensor, ...none, liftOffs, finding };
}
