// Which bytes an exhibit was drawn from, where records and storage say different things.

import { createRoot } from "solid-js";
import { expect, test } from "vitest";
import { createUnderWay } from "../../src/app/core/under-way.ts";
import { bytesAtHand } from "../../src/app/exhibits/bytes-at-hand.ts";
import { composeSheet, firstEdits } from "../../src/app/exhibits/compose.ts";
import { asRead } from "../../src/capture/model/take.ts";
import { draft } from "./exhibit-draft.ts";

const [a, b, c] = ["a", "b", "c"].map((letter) => letter.repeat(64)) as [string, string, string];
const record = (id: string, sha256: string) => ({ ...draft.record, id, sha256, fileName: "drive.csv" });
/** Storage with these bytes under these names. */
const holding = (bytes: Record<string, string>) => ({
  underWay: createRoot(createUnderWay),
  service: {
    sha256: async (id: string) => {
      const value = bytes[id];
      const problem = { code: "unreadable", what: "Not kept.", remedy: "Open it again." } as const;
      return value ? { ok: true as const, value } : { ok: false as const, problem };
    },
  },
});
const beside = (captureId: string, sha256: string) => ({
  name: "other.csv",
  take: asRead(captureId, {}),
  sha256,
  channels: [],
});

test("bytes that are those of the record need no word", async () => {
  const told = await bytesAtHand(holding({ [a]: a, [b]: b }), record(a, a), [beside(b, b)]);
  expect(told).toEqual({ sha256: a, statements: [] });
});

test("where nobody waits for large ones, the sheet goes by the records and says so", async () => {
  const hands = { ...holding({}), service: { sha256: () => new Promise<never>(() => {}) } };
  const told = bytesAtHand(hands, record(a, a), [beside(b, b)]);
  hands.underWay.cancel();
  expect(await told).toEqual({
    sha256: a,
    statements: [
      "SHA-256 of drive.csv as its record says: its bytes were not looked through again.",
      "SHA-256 of other.csv as its record says: its bytes were not looked through again.",
    ],
  });
});

test("bytes that changed, or a record that names others, are said on the sheet, with the digest of the bytes", async () => {
  for (const [storage, said] of [
    [{ [a]: c }, record(a, a)],
    [{ [a]: a }, record(a, c)],
  ] as const) {
    const { sha256, statements } = await bytesAtHand(holding(storage), said, []);
    expect(sha256).toBe(storage[a]);
    expect(statements.join()).toMatch(
      /bytes of drive.csv at hand are not those of its record, which says SHA-256 [ac]{12}…/,
    );
    const given = { ...draft, sha256, statements };
    const { title } = composeSheet(given, firstEdits(given, "A4", ""), { now: "2026-11-12T14:00" });
    expect(title.sha256).toBe(storage[a]);
    expect(title.settings.join(" ")).toContain("are not those of its record");
  }
});

test("the same of a companion or reference, and bytes that are not kept are told as unchecked", async () => {
  const { sha256, statements } = await bytesAtHand(holding({ [b]: c }), record(a, a), [beside(b, b)]);
  expect(sha256).toBe(a);
  expect(statements[0]).toMatch(/SHA-256 of drive.csv as its record says: the bytes are not kept/);
  expect(statements[1]).toMatch(/bytes of other.csv at hand are not those/);
});
