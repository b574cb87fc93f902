// One result of an on-board monitor, whichever service told it: value, limits, margin, and whether it passed.

import { type Monitor, monitorOf } from "./monitor-names.ts";

/** What a maker defines is shown raw, with these words. */
export const onlyMakersData = "only the maker's data tells";

export interface MonitorResult {
  /** "Catalyst, bank 1". */
  readonly monitor: string;
  readonly concern: Monitor["concern"];
  readonly bank: number | null;
  /** "rich-to-lean switch time", or "test $80: only the maker's data tells". */
  readonly test: string;
  readonly value: number;
  /** Null where there is no limit on that side. */
  readonly low: number | null;
  readonly high: number | null;
  /** "raw" where the unit is not known. */
  readonly unit: string;
  /** "not-run": value and limits are all zero, as after codes were cleared (from memory). "constant": nothing is judged by it. */
  readonly outcome: "passed" | "failed" | "not-run" | "constant";
  /** How far the value keeps from the nearer limit, % of that limit; negative beyond it; null where that cannot be said. */
  readonly margin: number | null;
  /** The bytes it was read from, for who wants to read them otherwise. */
  readonly bytes: string;
  /** Marks of what was read, shown beside it; "" where there is none. */
  readonly note: string;
}

export const bankOfMonitor = (id: number): number | null => {
  const match = /bank (\d)/.exec(monitorOf(id).name);
  return match ? Number(match[1]) : null;
};

/**
 * Relative margin to the nearer live limit, %: 25 for 0.75 under a highest of 1. Against a limit of zero nothing is said.
 */
export function marginOf(value: number, low: number | null, high: number | null): number | null {
  const margins = [
    low !== null && low !== 0 ? (100 * (value - low)) / Math.abs(low) : null,
    high !== null && high !== 0 ? (100 * (high - value)) / Math.abs(high) : null,
  ].filter((one) => one !== null);
  return margins.length > 0 ? Math.min(...margins) : null;
}

/** Catalysts on top, then sensors, heaters and misfire; failed before passed. */
export function inOrder(results: readonly MonitorResult[]): MonitorResult[] {
  const concerns: readonly Monitor["concern"][] = ["catalyst", "oxygen-sensor", "heater", "misfire", "other"];
  const rank = ({ concern, outcome }: MonitorResult) => concerns.indexOf(concern) * 2 + (outcome === "failed" ? 0 : 1);
  return [...results].sort((a, b) => rank(a) - rank(b));
}
