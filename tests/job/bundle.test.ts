import { unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { packEntries, unpackEntries } from "../../src/capture/archives/zip-entries.ts";
import {
  bundleEntries,
  isBundle,
  partLimits,
  readParts,
  readRecord,
  recordLimits,
} from "../../src/job/bundle/bundle.ts";
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
const bundle = {
  job: full,
  pictures: new Map([["e1.png", bytes("picture")]]),
  recordings: new Map([["a1", recording]]),
};

/** As the page opens it: the record first, then what it names. */
function read(packed: Uint8Array) {
  const record = readRecord(unpackEntries(packed, recordLimits), "job.zip");
  if (!record.ok) return record;
  const parts = readParts(record.value, unpackEntries(packed, partLimits(record.value)), "job.zip");
  return parts.ok ? { ok: true, value: { job: record.value, ...parts.value } } : parts;
}
const blob = (packed: Uint8Array) => new Blob([packed as Uint8Array<ArrayBuffer>]);

describe("a job bundle", () => {
  test("comes back whole", async () => {
    const packed = packEntries(bundleEntries(bundle));
    expect(await isBundle(blob(packed))).toBe(true);
    expect(read(packed)).toEqual({ ok: true, value: bundle });
  });

  test("opens in whatever order it was packed again", async () => {
    const entries = Object.entries(unzipSync(packEntries(bundleEntries(bundle)))).reverse();
    const packed = zipSync(Object.fromEntries(entries));
    expect(await isBundle(blob(packed))).toBe(true);
    expect(read(packed)).toEqual({ ok: true, value: bundle });
  });

  test("is not taken for one without a record of that very name", async () => {
    expect(await isBundle(blob(zipSync({ "my job.json": bytes("{}"), "job.json.csv": bytes("1,2") })))).toBe(false);
    expect(await isBundle(blob(bytes("job.json")))).toBe(false);
  });

  const entries = bundleEntries(bundle);
  const swollen = new Uint8Array(3e6);
  test.each([
    ["junk that swells", { junk: swollen, "recordings/junk": swollen, "exhibits/other.png": swollen }],
    ["a path that climbs", { "../../etc/passwd": bytes("x"), "/root": bytes("x"), "recordings/../a1.csv": bytes("x") }],
    ["a zip inside", { "inner.zip": zipSync({ "job.json": bytes("{}") }) }],
    ["the prototype's name", { __proto__: bytes("x"), "exhibits/__proto__": bytes("x") }],
  ])("with %s in it opens without it", (_, junk) => {
    expect(read(zipSync({ ...entries, ...junk } as Record<string, Uint8Array>))).toEqual({ ok: true, value: bundle });
  });

  test.each([
    ["a recording larger than its record says", { "recordings/a1/a1.csv": swollen }, "too-large"],
    ["a picture that swells", { "exhibits/e1.png": new Uint8Array(65e6) }, "too-large"],
    ["a record that swells", { "job.json": new Uint8Array(33e6).fill(32) }, "too-large"],
  ])("with %s is refused as such", (_, change, code) => {
    expect(read(zipSync({ ...entries, ...change }))).toMatchObject({ ok: false, problem: { code } });
  });

  test("takes photos along, as they were taken and as copies for paper", () => {
    const id = "a".repeat(64);
    const pictured = keepPhoto(full, at(4), { id, name: "plug.jpg", type: "image/jpeg", size: 3 });
    const photos = [`photo-${id}`, `photo-${id}.jpg`].map((name) => [name, bytes(name)] as const);
    const whole = { ...bundle, job: pictured, pictures: new Map([...bundle.pictures, ...photos]) };
    const packed = packEntries(bundleEntries(whole));
    expect(Object.keys(unzipSync(packed))).toContain(`exhibits/photo-${id}.jpg`);
    expect(read(packed)).toEqual({ ok: true, value: whole });
  });

  // RFC 4180: CRLF, quotes doubled inside quotes.
  test("is a plain zip that any program opens", () => {
    const entries = unzipSync(packEntries(bundleEntries(bundle)));
    expect(Object.keys(entries).sort()).toEqual([
      "dimensions.csv",
      "exhibits/e1.png",
      "job.json",
      "recordings/a1/a1.csv",
    ]);
    const table = new TextDecoder().decode(entries["dimensions.csv"]);
    expect(table.split("\r\n")[1]).toBe('a1.csv,"delay, ""worst""",time,31.2,31.7,0.5,0.49,0.51,s,measured');
  });

  test.each([
    ["no zip", bytes("hello")],
    ["cut off", zipSync({ "job.json": bytes("{}") }).slice(0, 40)],
    ["a zip without a record", zipSync({ "other.txt": bytes("x") })],
    ["a record that is none", zipSync({ "job.json": bytes("{}") })],
  ])("is refused when it is %s", (_, broken) => {
    expect(read(broken)).toMatchObject({
      ok: false,
      problem: { code: "damaged" },
    });
  });
});
