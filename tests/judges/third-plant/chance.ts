// Chance that can be drawn again: a small counting generator whose start is a name, so that each part of a car has its own.

export interface Chance {
  between(low: number, high: number): number;
  /** Even over the logarithm: as often in 1 to 2 as in 2 to 4. */
  spread(low: number, high: number): number;
  happens(share: number): boolean;
  /** Mean 0, deviation 1, Box and Muller. */
  bell(): number;
  pick<T>(list: readonly T[]): T;
}

/** @param name e.g. "dead 3 engine"; the same name gives the same numbers. */
export function chanceOf(name: string): Chance {
  const next = evenFrom(name);
  const between = (low: number, high: number) => low + (high - low) * next();
  return {
    between,
    spread: (low, high) => low * (high / low) ** next(),
    happens: (share) => next() < share,
    bell: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    pick: (list) => list[Math.floor(next() * list.length)]!,
  };
}

/** Evenly in [0, 1): "small fast counting", 32 bits, of PractRand's author (from memory); its start is a hash of the name (FNV-1a). */
function evenFrom(name: string): () => number {
  let hash = 0x811c9dc5;
  for (const letter of name) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  let [a, b, c, count] = [hash, hash ^ 0x9e3779b9, Math.imul(hash, 0x85ebca6b), 1];
  const next = () => {
    const sum = (a + b + count) | 0;
    count = (count + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    return (sum >>> 0) / 2 ** 32;
  };
  for (let k = 0; k < 16; k++) next();
  return next;
}
