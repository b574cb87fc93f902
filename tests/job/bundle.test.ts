import { unzipSync, zipSync } from "fflate";
import { describe, expect, test, vi } from "vitest";
import { packEntries, unpackEntries, type ZipLimits } from "../../src/capture/archives/zip-entries.ts";
import { bundleEntries, partLimits, readParts, readRecord, recordLimits } from "../../src/job/bundle/bundle.ts";
import { bundleFolder, entriesIn, limitsIn } from "../../src/job/bundle/bundle-folder.ts";
import { keepBench, keepExhibit } from "../../src/job/edits/make.ts";
import { keepPhoto } from "../../src/job/edits/paper-edits.ts";
import { addDimension, at, bench, dimension, job } from "./samples.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const label = 'delay, "worst"';
const recording = bytes("time,v\n0,1\n".padEnd(100));
const dimensioned = keepBench(job, at(2), "a1", addDimension(bench, dimension("d1", { label })));
const full = keepExhibit(dimensioned, at(3), {
  id: "e1",
  captureId: "a1",
  revision: 1,
  headline: "",
  madeAt: at(3),
  paper: "A4",
  svg: "e1.svg",
  png: "e1.png",
});
const blob = (packed: Uint8Array) => new Blob([packed as Uint8Array<ArrayBuffer>]);
const blobs = (all: Readonly<Record<string, Uint8Array>>) =>
  new Map(Object.entries(all).map(([name, one]) => [name, blob(one)]));
const bundle = { job: full, pictures: blobs({ "e1.png": bytes("picture") }), recordings: blobs({ a1: recording }) };

/** As the page opens it: the record first, then what it names. */
async function read(packed: Blob, folder = "") {
  const unpacked = async (limits: ZipLimits) =>
    entriesIn(folder, await unpackEntries(packed, limitsIn(folder, limits)));
  const record = await readRecord(await unpacked(recordLimits), "job.zip");
  if (!record.ok) return record;
  const parts = readParts(record.value, await unpacked(partLimits(record.value)), "job.zip");
  return parts.ok ? { ok: true as const, value: { job: record.value, ...parts.value } } : parts;
}

/** With the bytes of its parts, to be compared. */
async function plain(outcome: Awaited<ReturnType<typeof read>>) {
  if (!outcome.ok) return outcome;
  const { job, pictures, recordings } = outcome.value;
  return { job, pictures: await textsOf(pictures), recordings: await textsOf(recordings) };
}
const textsOf = async (parts: ReadonlyMap<string, Blob>) =>
  Object.fromEntries(await Promise.all([...parts].map(async ([name, one]) => [name, await one.text()] as const)));
/** Judged by another library than the one that packs. */
const unzipped = async (packed: Blob) => unzipSync(new Uint8Array(await packed.arrayBuffer()));
const whole = { job: full, pictures: { "e1.png": "picture" }, recordings: { a1: new TextDecoder().decode(recording) } };

describe("a job bundle", () => {
  test.each(["job/", "Jöb №3/"])("comes back whole out of a folder that was packed again, %s", async (folder) => {
    const flat = await unzipped(await packEntries(bundleEntries(bundle)));
    const again = zipSync(Object.fromEntries(Object.entries(flat).map(([name, one]) => [folder + name, one])));
    expect(await bundleFolder(blob(again))).toBe(folder);
    expect(await plain(await read(blob(again), folder))).toEqual(whole);
  });

  test("comes back whole", async () => {
    const packed = await packEntries(bundleEntries(bundle));
    expect(await bundleFolder(packed)).toBe("");
    expect(await plain(await read(packed))).toEqual(whole);
  });

  test("opens in whatever order it was packed again", async () => {
    const entries = Object.entries(await unzipped(await packEntries(bundleEntries(bundle)))).reverse();
    const packed = blob(zipSync(Object.fromEntries(entries)));
    expect(await bundleFolder(packed)).toBe("");
    expect(await plain(await read(packed))).toEqual(whole);
  });

  test("is not taken for one without a record of that very name", async () => {
    expect(await bundleFolder(blob(zipSync({ "my job.json": bytes("{}"), "job.json.csv": bytes("1,2") })))).toBeNull();
    expect(await bundleFolder(blob(zipSync({ "a/b/job.json": bytes("{}") })))).toBeNull();
    expect(await bundleFolder(blob(bytes("job.json")))).toBeNull();
  });

  const swollen = new Uint8Array(3e6);
  test.each([
    ["junk that swells", { junk: swollen, "recordings/junk": swollen, "exhibits/other.png": swollen }],
    ["a path that climbs", { "../../etc/passwd": bytes("x"), "/root": bytes("x"), "recordings/../a1.csv": bytes("x") }],
    ["a zip inside", { "inner.zip": zipSync({ "job.json": bytes("{}") }) }],
    ["the prototype's name", { __proto__: bytes("x"), "exhibits/__proto__": bytes("x") }],
  ])("with %s in it opens without it", async (_, junk) => {
    const entries = await unzipped(await packEntries(bundleEntries(bundle)));
    const packed = blob(zipSync({ ...entries, ...junk } as Record<string, Uint8Array>));
    expect(await plain(await read(packed))).toEqual(whole);
  });

  test.each([
    ["a recording larger than its record says", { "recordings/a1/a1.csv": swollen }, "too-large"],
    ["a picture that swells", { "exhibits/e1.png": new Uint8Array(65e6) }, "too-large"],
    ["a record that swells", { "job.json": new Uint8Array(33e6).fill(32) }, "too-large"],
  ])("with %s is refused as such", async (_, change, code) => {
    const entries = await unzipped(await packEntries(bundleEntries(bundle)));
    expect(await read(blob(zipSync({ ...entries, ...change })))).toMatchObject({ ok: false, problem: { code } });
  });

  test("takes photos along, as they were taken and as copies for paper", async () => {
    const id = "a".repeat(64);
    const pictured = keepPhoto(full, at(4), { id, name: "plug.jpg", type: "image/jpeg", size: 3 });
    const photos = Object.fromEntries([`photo-${id}`, `photo-${id}.jpg`].map((name) => [name, bytes(name)]));
    const pictures = new Map([...bundle.pictures, ...blobs(photos)]);
    const packed = await packEntries(bundleEntries({ ...bundle, job: pictured, pictures }));
    expect(Object.keys(await unzipped(packed))).toContain(`exhibits/photo-${id}.jpg`);
    const names = await textsOf(pictures);
    expect(await plain(await read(packed))).toEqual({ ...whole, job: pictured, pictures: names });
  });

  test("with an entry twice, or a checksum that does not hold, is refused", async () => {
    const png = Uint8Array.of(0x89, 0x50, ...bytes("picture")); // not packed once more
    const packed = await packEntries(bundleEntries({ ...bundle, pictures: blobs({ "e1.png": png }) }));
    const flipped = new Uint8Array(await packed.arrayBuffer());
    const at = new TextDecoder("latin1").decode(flipped).indexOf("picture");
    flipped[at] = flipped[at]! ^ 1;
    expect(await read(blob(flipped))).toMatchObject({ ok: false, problem: { code: "damaged" } });
    const twice = new Uint8Array(
      await (await packEntries({ ...bundleEntries(bundle), "job.jsom": bytes("{}") })).arrayBuffer(),
    );
    for (let i = twice.indexOf(0); i < twice.length; i++) {
      if (new TextDecoder().decode(twice.subarray(i, i + 8)) === "job.jsom") twice[i + 7] = 110; // n
    }
    expect(await read(blob(twice))).toMatchObject({ ok: false, problem: { code: "damaged" } });
  });

  test("on a stick that is pulled says that it cannot be read any more, and given up throws", async () => {
    const packed = await packEntries(bundleEntries(bundle));
    vi.spyOn(packed, "slice").mockImplementation(() => {
      throw new DOMException("gone", "NotReadableError");
    });
    expect(await read(packed)).toMatchObject({ ok: false, problem: { code: "unreadable" } });
    const again = await packEntries(bundleEntries(bundle));
    await expect(
      unpackEntries(again, recordLimits, { signal: AbortSignal.abort(new Error("given up")) }),
    ).rejects.toThrow();
  });

  // RFC 4180: CRLF, quotes doubled inside quotes.
  test("is a plain zip that any program opens", async () => {
    const entries = await unzipped(await packEntries(bundleEntries(bundle)));
    expect(Object.keys(entries).sort()).toEqual([
      "dimensions.csv",
      "exhibits/e1.png",
      "job.json",
      "recordings/a1/a1.csv",
    ]);
    const table = new TextDecoder().decode(entries["dimensions.csv"]);
    expect(table.split("\r\n")[1]).toBe('a1.csv,"delay, ""worst""",time,31.2,31.7,0.5,0.49,0.51,s,measured');
  });

  // Spreadsheets take the signs in full width (U+FF1D, U+FF0B, U+FF0D, U+FF20) as they take the others.
  test.each(["=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20"])(
    "guards a label that begins with %s",
    async (sign) => {
      const labelled = keepBench(job, at(2), "a1", addDimension(bench, dimension("d1", { label: `${sign}1` })));
      const { "dimensions.csv": table } = await unzipped(
        await packEntries(bundleEntries({ ...bundle, job: labelled })),
      );
      expect(new TextDecoder().decode(table).split("\r\n")[1]).toContain(`,'${sign}1,`);
    },
  );

  test.each([
    ["no zip", bytes("hello")],
    ["cut off", zipSync({ "job.json": bytes("{}") }).slice(0, 40)],
    ["a zip without a record", zipSync({ "other.txt": bytes("x") })],
    ["a record that is none", zipSync({ "job.json": bytes("{}") })],
  ])("is refused when it is %s", async (_, broken) => {
    expect(await read(blob(broken))).toMatchObject({
      ok: false,
      problem: { code: "damaged" },
    });
  });
});
