// The second plant's own random numbers; nothing is shared with the first simulator, least of all its luck.

export interface Chance {
  /** Even over [low, high). */
  between(low: number, high: number): number;
  /** Even in the logarithm; both > 0. */
  decades(low: number, high: number): number;
  /** Mean 0, standard deviation 1. */
  bell(): number;
  happens(share: number): boolean;
  oneOf<T>(list: readonly T[]): T;
  /** A stream of its own, named, so that more chance in one place moves nothing in another. */
  branch(name: string): Chance;
}

/** xoshiro128** (Blackman & Vigna, 2018), filled by splitmix32; both from memory. */
export function chanceFrom(seed: number): Chance {
  const state = new Uint32Array(4);
  let mix = seed >>> 0;
  for (let k = 0; k < 4; k++) {
    mix = (mix + 0x9e3779b9) >>> 0;
    let z = mix;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    state[k] = (z ^ (z >>> 15)) >>> 0;
  }
  const turn = (x: number, by: number) => ((x << by) | (x >>> (32 - by))) >>> 0;
  const next = () => {
    const [a, b, c, d] = state as unknown as [number, number, number, number];
    const out = Math.imul(turn(Math.imul(b, 5) >>> 0, 7), 9) >>> 0;
    state[2] = c ^ a;
    state[3] = d ^ b;
    state[1] = b ^ state[2]!;
    state[0] = a ^ state[3]!;
    state[2] = state[2]! ^ (b << 9);
    state[3] = turn(state[3]!, 11);
    return out / 2 ** 32;
  };
  const chance: Chance = {
    between: (low, high) => low + (high - low) * next(),
    decades: (low, high) => Math.exp(chance.between(Math.log(low), Math.log(high))),
    // Marsaglia's polar form; the second number is not kept.
    bell() {
      for (;;) {
        const [u, v] = [2 * next() - 1, 2 * next() - 1];
        const s = u * u + v * v;
        if (s > 0 && s < 1) return u * Math.sqrt((-2 * Math.log(s)) / s);
      }
    },
    happens: (share) => next() < share,
    oneOf: (list) => list[Math.floor(next() * list.length)]!,
    branch: (name) =>
      chanceFrom([...name].reduce((sum, letter) => Math.imul(sum, 31) + letter.charCodeAt(0), seed ^ 0x51ed27)),
  };
  return chance;
}
