// The one source of chance: seeded, so that the same seed always makes the same car and the same recording.

export interface Random {
  /** Even over [low, high). */
  uniform(low: number, high: number): number;
  /** Even in the logarithm over [low, high); both > 0. */
  logUniform(low: number, high: number): number;
  /** Gaussian, mean 0, standard deviation 1. */
  normal(): number;
  chance(probability: number): boolean;
  pick<T>(list: readonly T[]): T;
  /** An independent stream of its own, so that drawing more in one place moves nothing in another. */
  split(): Random;
}

/** @param seed any whole number. */
export function seededRandom(seed: number): Random {
  const next = evenStream(seed);
  let spare = Number.NaN;
  const random: Random = {
    uniform: (low, high) => low + (high - low) * next(),
    logUniform: (low, high) => low * (high / low) ** next(),
    // Box & Muller, Ann. Math. Stat. 29 (1958) 610: two at a time.
    normal() {
      if (!Number.isNaN(spare)) {
        const kept = spare;
        spare = Number.NaN;
        return kept;
      }
      const radius = Math.sqrt(-2 * Math.log(1 - next()));
      const angle = 2 * Math.PI * next();
      spare = radius * Math.sin(angle);
      return radius * Math.cos(angle);
    },
    chance: (probability) => next() < probability,
    pick: (list) => list[Math.floor(next() * list.length)]!,
    split: () => seededRandom(Math.floor(next() * 2 ** 32)),
  };
  return random;
}

/** Even over [0, 1). Small fast counting generator "sfc32" (C. Doty-Humphrey, PractRand), warmed up with 16 rounds. */
function evenStream(seed: number): () => number {
  let [a, b, c, counter] = [seed | 0, (seed / 2 ** 32) | 0, 0x9e3779b9 | 0, 1];
  const next = () => {
    const mixed = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + mixed) | 0;
    return (mixed >>> 0) / 2 ** 32;
  };
  for (let round = 0; round < 16; round++) next();
  return next;
}
