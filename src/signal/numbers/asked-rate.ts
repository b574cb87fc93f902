// How fast the sensors are to be recorded: readings, findings and the guide ask for the same.

import type { Hertz } from "./units.ts";

/** samples/s; common practice. */
const always = 200;

/** What is asked for everywhere, as written. */
export const askedRate = `${always} samples/s or more` as const;

/** The same, or more where a reading needs it. */
export const askedRateFor = (needed: Hertz): string => `${Math.max(always, Math.ceil(needed))} samples/s or more`;
