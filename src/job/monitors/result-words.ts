// Numbers of a monitor's result as people read them: value and limits in one unit, so that they can be set side by side.

import { formatValue } from "../../signal/written/reading-text.ts";
import type { MonitorResult } from "./result.ts";

/** `value` may be the result's own or one of its limits; raw numbers and ratios carry no unit. */
export function saidOf({ unit, value, low, high }: MonitorResult, said: number): string {
  if (unit === "raw" || unit === "ratio") return formatValue(said, "");
  const largest = Math.max(...[value, low, high].map((one) => Math.abs(one ?? 0)));
  return unit === "s" && largest < 1 ? formatValue(said * 1000, "ms") : formatValue(said, unit);
}
