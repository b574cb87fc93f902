// An equivalence ratio turned over into lambda: fuel over air is the inverse of air over fuel.

import type { Samples } from "../../signal/series/series.ts";
import { someAt } from "./likely-sensors.ts";
import { wordsOf } from "./roles.ts";

const said = /\bequiv\w*|\bphi\b/;
/** No engine runs at a lambda below this; an equivalence ratio falls towards 0 while fuel is cut. */
const leastLambda = 0.6;
/** Air: there is no fuel to divide by. */
const mostLambda = 20;

/**
 * Whether a channel holds fuel over air (rich above 1). Scan tools give lambda under the same name (PID 44 of SAE J1979), so
 * the name alone does not settle it: values that no lambda can have do.
 */
export const isEquivalence = (name: string, values: Samples): boolean =>
  said.test(wordsOf(name)) && (someAt(values, [0.01])[0] ?? 1) < leastLambda;

/** A new array; NaN stays NaN. */
export const turnedOver = (values: Samples): Samples =>
  values.map((value) => Math.min(mostLambda, 1 / Math.max(value, 1 / mostLambda))) as Samples;
