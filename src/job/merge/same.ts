// Whether two plain values mean the same: an absent field and one that is undefined do, the order of fields tells nothing.

export function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) return Array.isArray(a) && Array.isArray(b) && sameLists(a, b);
  return keysOf(a, b).every((key) => same(a[key as keyof typeof a], b[key as keyof typeof b]));
}

const sameLists = (a: readonly unknown[], b: readonly unknown[]) =>
  a.length === b.length && a.every((one, i) => same(one, b[i]));

/** Own fields of any of them, each once. */
export function keysOf(...all: readonly (object | undefined)[]): string[] {
  return [...new Set(all.flatMap((one) => Object.keys(one ?? {})))];
}
