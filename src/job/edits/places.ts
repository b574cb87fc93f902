// Instants and spans of a recording that were given a name.

import type { BenchState, Place } from "../record/job.ts";

/** Added, or put in the place of the one with its id. */
export function keepPlace(bench: BenchState, place: Place): BenchState {
  return { ...bench, places: [...(bench.places ?? []).filter(({ id }) => id !== place.id), place] };
}

export function namePlace(bench: BenchState, id: string, name: string): BenchState {
  return { ...bench, places: (bench.places ?? []).map((one) => (one.id === id ? { ...one, name } : one)) };
}

export function removePlace(bench: BenchState, id: string): BenchState {
  return { ...bench, places: (bench.places ?? []).filter((one) => one.id !== id) };
}
