// Marks that stand too close to be told apart: those with room keep their ring, the others become ticks along an edge.

export interface Spread {
  /** Marks with room around them, by their index. */
  readonly alone: readonly number[];
  /** Where the others stand, thinned to what the eye can part. */
  readonly ticks: readonly number[];
}

/**
 * @param places  along one line, rising, any unit of length.
 * @param apart   a mark this far from both neighbours has room.
 * @param finest  least distance from tick to tick.
 */
export function spread(places: readonly number[], apart: number, finest: number): Spread {
  const alone: number[] = [];
  const ticks: number[] = [];
  places.forEach((place, i) => {
    const [before, after] = [places[i - 1] ?? -Infinity, places[i + 1] ?? Infinity];
    if (place - before >= apart && after - place >= apart) alone.push(i);
    else if (place - (ticks.at(-1) ?? -Infinity) >= finest) ticks.push(place);
  });
  return { alone, ticks };
}
