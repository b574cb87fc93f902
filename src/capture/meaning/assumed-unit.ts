// The unit of a column that names none.

import type { Samples } from "../../signal/series/series.ts";
import type { Role } from "../model/capture.ts";
import { unitOfRole } from "./quantities.ts";

/** Unit of a known quantity whose column names none, told from how large its numbers are. */
export function assumedUnit(role: Role, range: () => Range): string | undefined {
  if (role === "other") return undefined;
  const [low, high] = range();
  if ((role === "front-o2" || role === "rear-o2") && high > 20) return "mV";
  if (role === "front-lambda" && low > 5) return "AFR";
  if (role === "coolant-temp" && high > 150 && high < 300) return "degF";
  if (role === "manifold-pressure" && high > 0 && high < 5) return "bar";
  return unitOfRole(role);
}

type Range = readonly [low: number, high: number];

export function rangeOf(values: Samples): Range {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}
