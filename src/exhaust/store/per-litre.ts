// A store beside the size of the engine that it stands behind.

import type { Reading } from "../../signal/numbers/reading.ts";

/**
 * Oxygen for each litre of engine: what makes catalysts of small and large cars comparable.
 *
 * @param store  g. @param litres  of engine, above 0.
 * @returns g/l, bounds and grade as those of the store.
 */
export function perLitre(store: Reading, litres: number): Reading {
  const each = (grams: number | null) => (grams === null ? null : grams / litres);
  return { ...store, value: each(store.value), low: each(store.low), high: each(store.high), unit: "g/l" };
}
