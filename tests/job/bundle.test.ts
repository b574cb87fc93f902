import { unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { packEntries, unpackEntries } from "../../src/capture/archives/zip-entries.ts";
import { bundleEntries, bundleLimits, looksLikeBundle, readBundle } from "../../src/job/bundle/bundle.ts";
import { keepBench, keepExhibit } from "../../src/job/edits/make.ts";
import { addDimension, at, bench, dimension, job } from "./samples.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const label = 'delay, "worst"';
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
  recordings: new Map([["a1", bytes("time,v\n0,1\n")]]),
};

describe("a job bundle", () => {
  test("comes back whole", () => {
    const packed = packEntries(bundleEntries(bundle));
    expect(looksLikeBundle(packed)).toBe(true);
    expect(readBundle(unpackEntries(packed, bundleLimits), "job.zip")).toEqual({ ok: true, value: bundle });
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
    expect(readBundle(unpackEntries(broken, bundleLimits), "job.zip")).toMatchObject({
      ok: false,
      problem: { code: "damaged" },
    });
  });
});
