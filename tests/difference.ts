// Findings of two ways to one answer, compared but for rounding.

/** Where two findings differ by more than rounding; null where nowhere. */
export function difference(one: unknown, other: unknown, where = "found"): string | null {
  if (typeof one === "number" && typeof other === "number") {
    const isClose = Object.is(one, other) || Math.abs(one - other) <= 1e-8 * Math.max(1e-3, Math.abs(one));
    return isClose ? null : `${where}: ${one}, ${other}`;
  }
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) {
    return one === other ? null : `${where}: ${one}, ${other}`;
  }
  const keys = [...new Set([...Object.keys(one), ...Object.keys(other)])];
  const inner = (of: object, key: string) => (of as Record<string, unknown>)[key];
  return keys.reduce<string | null>(
    (found, key) => found ?? difference(inner(one, key), inner(other, key), `${where}.${key}`),
    null,
  );
}
