// Whether samples lie so far apart that a front sensor may have swung to and fro between them.

import type { AnySeries } from "../../signal/series/series.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import type { Limits } from "./limits.ts";

/** Whether the fastest swing of a front sensor passes unseen between samples; so it may where there are fewer than two. */
export const mayFold = ({ time }: Pick<AnySeries, "time">, { fastestFront }: Pick<Limits, "fastestFront">): boolean =>
  !(usualStep(time) * fastestFront <= 1);
