// Shelf traces: written and read back, shared as files, and hostile files held off.

import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { packEntries, unpackEntries } from "../../src/capture/archives/zip-entries.ts";
import { readShelfEntries, shelfEntries, shelfLimits } from "../../src/job/shelf/shelf-bundle.ts";
import { readShelfTrace, shelfText } from "../../src/job/shelf/shelf-format.ts";
import { searchShelf } from "../../src/job/shelf/shelf-trace.ts";
import { shelfTrace } from "./shelf-sample.ts";

const samples = Uint8Array.from({ length: 400_000 }, (_, i) => i % 251);
const zipOf = (said: unknown, more: Record<string, Uint8Array> = {}) =>
  zipSync({ "shelf.json": strToU8(JSON.stringify(said)), "trace.npy": samples.subarray(0, 64), ...more });
const unpackShelfTrace = async (bytes: Uint8Array, name: string) =>
  readShelfEntries(await unpackEntries(blobOf(bytes), shelfLimits), name);
const blobOf = (bytes: Uint8Array) => new Blob([bytes as Uint8Array<ArrayBuffer>]);
const bytesOf = async (blob: Blob) => new Uint8Array(await blob.arrayBuffer());
const plain = { version: 1, name: "a" };

describe("a shelf trace", () => {
  test("is read back as it was kept", () => {
    expect(readShelfTrace(shelfText(shelfTrace), "here")).toEqual({ ok: true, value: shelfTrace });
  });

  test("of a newer program, or out of shape, is a problem that names the place", () => {
    const newer = readShelfTrace(JSON.stringify({ ...shelfTrace, version: 2 }), "here");
    expect(newer).toMatchObject({ ok: false, problem: { code: "newer-version" } });
    const { delay: _, ...event } = shelfTrace.comparable.liftOffs[0]!;
    const cut = { ...shelfTrace, comparable: { ...shelfTrace.comparable, liftOffs: [event] } };
    const damaged = readShelfTrace(JSON.stringify(cut), "here");
    expect(damaged).toMatchObject({
      ok: false,
      problem: { code: "damaged", where: "here, comparable.liftOffs[0].delay" },
    });
    for (const text of ["", "{", "null", "[]", 7, undefined]) {
      expect(readShelfTrace(text, "here")).toMatchObject({ ok: false, problem: { code: "damaged" } });
    }
  });

  test("is found by all words of a search, in any case", () => {
    expect(searchShelf([shelfTrace], "HATCH 1.6")).toEqual([shelfTrace]);
    expect(searchShelf([shelfTrace], "hatch estate")).toEqual([]);
    expect(searchShelf([shelfTrace], "  ")).toEqual([shelfTrace]);
  });
});

const columns = { roles: { "Sensor 1": "front-o2" as const }, corrections: [] };

describe("a shelf trace as a file", () => {
  test("brings words, roles and samples", async () => {
    const bytes = await bytesOf(await packEntries(shelfEntries(shelfTrace, samples, columns)));
    const read = await unpackShelfTrace(bytes, "trace.zip");
    if (!read.ok) throw new Error(read.problem.what);
    expect(read.value.words.because).toBe(shelfTrace.because);
    expect(read.value.roles).toEqual({ "Sensor 1": "front-o2" });
    expect(await bytesOf(read.value.samples)).toEqual(samples);
  });

  test("is cut of control marks, of length and of roles that are none; no prototype is touched", async () => {
    const said = `{"version":1,"name":"\\u202egood\\u0000 <b>","saidBy":"${"x".repeat(9000)}","bank":9,
      "roles":{"a":"front-o2","b":"toString","__proto__":"rear-o2"},"keptAt":"never","isSimulated":"yes"}`;
    const bytes = zipSync({ "shelf.json": strToU8(said), "trace.npy": samples.subarray(0, 64) });
    const read = await unpackShelfTrace(bytes, "trace.zip");
    if (!read.ok) throw new Error(read.problem.what);
    const { words, bank, roles, keptAt, isSimulated } = read.value;
    expect(words.name).toBe("good  <b>");
    expect(words.saidBy).toHaveLength(500);
    expect([bank, isSimulated, keptAt]).toEqual([1, false, "1970-01-01T00:00:00.000Z"]);
    expect(roles.a).toBe("front-o2");
    expect(Object.keys(roles)).not.toContain("b");
    expect(({} as Record<string, unknown>).a).toBeUndefined();
  });

  test("never follows a path in the archive", async () => {
    const read = await unpackShelfTrace(zipOf(plain, { "../../trace.npy": samples, "/etc/x": samples }), "trace.zip");
    expect(read.ok && (await bytesOf(read.value.samples))).toEqual(samples.slice(0, 64));
    const only = zipSync({ "../shelf.json": strToU8(JSON.stringify(plain)), "x/trace.npy": samples });
    expect(await unpackShelfTrace(only, "trace.zip")).toMatchObject({ ok: false, problem: { code: "damaged" } });
  });

  test("takes no entry by the name of what every object has", async () => {
    // Written under another name of the same length, in local header and directory: the packer itself refuses such names.
    const bytes = zipOf(plain, { "##proto##": samples });
    for (let i = 0; i + 9 <= bytes.length; i++) {
      if (new TextDecoder().decode(bytes.subarray(i, i + 9)) === "##proto##") bytes.set(strToU8("__proto__"), i);
    }
    const entries = await unpackEntries(blobOf(bytes), shelfLimits);
    if (typeof entries === "string") throw new Error(entries);
    expect(Object.keys(entries).sort()).toEqual(["shelf.json", "trace.npy"]);
    expect(Object.getPrototypeOf(entries)).toBe(Object.prototype);
  });

  test("of a newer version, cut off, empty or no zip is refused with a reason", async () => {
    const cases: [Uint8Array, string][] = [
      [zipOf({ ...plain, version: 9 }), "newer-version"],
      [zipOf({ ...plain, version: "1" }), "damaged"],
      [zipOf({ ...plain, version: 0 }), "damaged"],
      [zipOf({ ...plain, version: -1 }), "damaged"],
      [zipOf({ name: "a" }), "damaged"],
      [zipOf(null), "damaged"],
      [zipOf(plain).subarray(0, 90), "damaged"],
      [new Uint8Array(0), "damaged"],
      [strToU8("time,front\n0,1\n"), "damaged"],
    ];
    for (const [bytes, code] of cases)
      expect(await unpackShelfTrace(bytes, "z")).toMatchObject({ ok: false, problem: { code } });
  });

  test("that unpacks to too much is refused before it is unpacked, and understated sizes do not swell", async () => {
    const swollen = zipOf({ ...plain, because: "x".repeat(2 ** 21) });
    expect(await unpackShelfTrace(swollen, "z")).toMatchObject({ ok: false, problem: { code: "too-large" } });
    const bytes = zipSync({ "a.npy": new Uint8Array(5_000_000) });
    // The size unpacked stands 24 bytes into the entry of the central directory (APPNOTE 4.3.12); here it is made to lie.
    const at = bytes.findLastIndex((_, i) => bytes[i] === 0x50 && bytes[i + 1] === 0x4b && bytes[i + 2] === 1);
    new DataView(bytes.buffer).setUint32(at + 24, 10, true);
    const entries = await unpackEntries(blobOf(bytes), { named: {}, others: 1000 });
    expect(typeof entries === "string" || entries["a.npy"]!.size <= 10).toBe(true);
  });
});
