// Next steps that ask for a check by hand, each with the checks that settle it: what was done is not asked for again.

import type { HandCause, HandChecks } from "../terms/hand-checks.ts";

const leaks = ["leak-ahead", "leak-between"] as const;

export const leakTest =
  "Test the exhaust for leaks by smoke or pressure, from the head to the rear sensor, cold and with the gas drawn off.";
export const leakTestBetween = "Test the exhaust for leaks by smoke or pressure, from the catalyst to the rear sensor.";
export const misfireCounts =
  "Read the misfire codes and counters. A misfire is cured before anything is said about the catalyst, which it may have damaged.";
const noLeak = "Rule out exhaust leaks by a pressure or smoke test before parts are chosen.";
const wornBy = "Find what wore the catalyst down before parts are chosen: misfire, oil, coolant or mixture.";

/** What comes before a catalyst is renewed. */
export const beforeParts: readonly string[] = [noLeak, wornBy];

const settledBy: ReadonlyMap<string, readonly HandCause[]> = new Map<string, readonly HandCause[]>([
  [leakTest, leaks],
  [leakTestBetween, ["leak-between"]],
  [noLeak, leaks],
  [misfireCounts, ["ignition"]],
  [wornBy, ["ignition", "plugs", "oil-coolant", "fuel-pressure"]],
]);

/** Steps that no check has answered: none found a fault, and not every one was made yet. */
export const stepsLeft = (steps: readonly string[], checks: HandChecks): string[] =>
  steps.filter((step) => {
    const causes = settledBy.get(step);
    const isFound = causes?.some((cause) => checks[cause] === "at-fault");
    return !isFound && !causes?.every((cause) => checks[cause] !== undefined);
  });
