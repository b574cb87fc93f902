// The order of a list that two sides may have put in another order.

/**
 * @param base, mine, theirs  keys in order; each key once.
 * @param stays  which keys are in the result.
 * @returns the order of the side that put keys in another order, `mine` where both did and `mineWins`; what only the other
 *          side has stands behind the key it stands behind there.
 */
export function mergeOrder(
  base: readonly string[],
  mine: readonly string[],
  theirs: readonly string[],
  { stays, mineWins }: { readonly stays: ReadonlySet<string>; readonly mineWins: boolean },
): string[] {
  const leads = isReordered(base, mine) && (mineWins || !isReordered(base, theirs));
  const [lead, other] = leads ? [mine, theirs] : [theirs, mine];
  const order = lead.filter((key) => stays.has(key));
  const placed = new Set(order);
  let behind: string | null = null;
  for (const key of other) {
    if (stays.has(key) && !placed.has(key)) {
      order.splice(behind === null ? 0 : order.indexOf(behind) + 1, 0, key);
      placed.add(key);
    }
    if (placed.has(key)) behind = key;
  }
  return order;
}

/** Whether keys that both hold stand in another order. */
function isReordered(base: readonly string[], side: readonly string[]): boolean {
  const [before, now] = [new Set(base), new Set(side)];
  const [kept, left] = [base.filter((key) => now.has(key)), side.filter((key) => before.has(key))];
  return kept.some((key, i) => key !== left[i]);
}
