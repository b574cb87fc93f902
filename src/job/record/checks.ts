// Small checks of a parsed value's shape, put together into larger ones. The first thing that does not fit is named.

/** Names what is wrong, or answers null. `path` leads to the value: "captures[0].bench". */
export type Check = (value: unknown, path: string) => string | null;

export const text: Check = (v, path) => (typeof v === "string" ? null : path);
export const number: Check = (v, path) => (typeof v === "number" && Number.isFinite(v) ? null : path);
export const oneOf =
  (...allowed: readonly unknown[]): Check =>
  (v, path) =>
    allowed.includes(v) ? null : path;
export const maybe =
  (check: Check): Check =>
  (v, path) =>
    v === undefined ? null : check(v, path);
const either =
  (...checks: readonly Check[]): Check =>
  (v, path) =>
    checks.some((check) => check(v, path) === null) ? null : path;
const nothing = oneOf(null);

export const list =
  (each: Check): Check =>
  (v, path) =>
    Array.isArray(v) ? first(v.map((item, i) => () => each(item, `${path}[${i}]`))) : path;

export const map =
  (each: Check): Check =>
  (v, path) =>
    isRecord(v)
      ? first(
          Object.entries(v).map(
            ([key, item]) =>
              () =>
                each(item, `${path}.${key}`),
          ),
        )
      : path;

export const record =
  (fields: Readonly<Record<string, Check>>): Check =>
  (v, path) =>
    isRecord(v)
      ? first(
          Object.entries(fields).map(
            ([key, check]) =>
              () =>
                check(v[key], `${path}.${key}`),
          ),
        )
      : path;

function first(checks: readonly (() => string | null)[]): string | null {
  for (const check of checks) {
    const fault = check();
    if (fault !== null) return fault;
  }
  return null;
}

export const isRecord = (v: unknown): v is Record<string, unknown> =>
  typeof v === "object" && v !== null && !Array.isArray(v);

export const numberOrNull = either(number, nothing);

/** @throws what `fault` makes of the path of the first thing that does not fit. */
export function checkedAs<T>(check: Check, value: unknown, fault: (path: string) => Error): T {
  const path = check(value, "");
  if (path !== null) throw fault(path.replace(/^[.]/, ""));
  return value as T;
}
