// What a smoothing filter does to a transition time, told from its answer to a unit pulse.

/**
 * 10-90 % time of the answer to a step, in steps: the running sum of the answer to a pulse, linear in between.
 *
 * @param pulse  the answer to a unit pulse; its sum is 1.
 * @returns NaN where the sum never reaches 90 %.
 */
export function stepRise(pulse: ArrayLike<number>): number {
  let before = 0;
  let ten = NaN;
  for (let i = 0; i < pulse.length; i++) {
    const now = before + pulse[i]!;
    const where = (share: number) => i + (share - before) / (now - before);
    if (Number.isNaN(ten) && now >= 0.1) ten = where(0.1);
    if (now >= 0.9) return where(0.9) - ten;
    before = now;
  }
  return NaN;
}
