// The digest that names a capture, judged by Node's own (OpenSSL): at once up to 32 MiB, piece by piece beyond.

import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import { atOnce, sha256Of } from "../../workers/naming/sha256.ts";

const calm = new AbortController().signal;

const most = Uint8Array.from({ length: atOnce + (4 << 20) }, (_, i) => (i * i) >> 3);

test.each([0, 3, atOnce, atOnce + 1, most.length])("of %i bytes", async (size) => {
  const bytes = most.subarray(0, size);
  const judge = createHash("sha256").update(bytes).digest("hex");
  expect(await sha256Of(memorySource(bytes, "a"), calm)).toBe(judge);
});

// FIPS 180-4, example of the standard's test vectors: "abc".
test("of the standard's example", async () => {
  expect(await sha256Of(memorySource(new TextEncoder().encode("abc"), "a"), calm)).toBe(
    "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
  );
});

test("ends where it is given up", async () => {
  const given = AbortSignal.abort(new Error("given up"));
  await expect(sha256Of(memorySource(new Uint8Array(atOnce + 1), "a"), given)).rejects.toThrow("given up");
});
