import { expect, test } from "vitest";
import { newId } from "../../src/job/record/new-id.ts";

// RFC 9562, section 5.4: the version is 4, the variant 10 in binary.
const version4 = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

test("names are random UUIDs where the browser makes none", () => {
  const source = {
    getRandomValues: <T extends ArrayBufferView | null>(into: T) => crypto.getRandomValues(into as never) as T,
  };
  const names = Array.from({ length: 500 }, () => newId(source));
  for (const name of names) expect(name).toMatch(version4);
  expect(new Set(names).size).toBe(500);
  expect(newId({ getRandomValues: <T extends ArrayBufferView | null>(into: T) => into })).toBe(
    "00000000-0000-4000-8000-000000000000",
  );
});
