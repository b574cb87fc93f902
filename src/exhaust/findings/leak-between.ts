// Air that leaks in between catalyst and rear sensor, as the fit of the store tells it.

import type { StoreStudy } from "../terms/store-study.ts";

/** A sound catalyst with air that leaks in behind it explains the recording better than a plain one of any store. */
export const leakExplains = ({ best, leak, margin }: StoreStudy): boolean =>
  leak !== null && leak.cost < best.cost - margin;
