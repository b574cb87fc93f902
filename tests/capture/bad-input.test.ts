import { describe, expect, test } from "vitest";
import { blobSource } from "../../src/capture/bytes/sources.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { settle } from "../../src/problem.ts";
import { channel, open, problemOf, remarks, times, values } from "./open.ts";

const hex = (text: string): Uint8Array => Uint8Array.from(text.match(/../g)!, (byte) => Number.parseInt(byte, 16));

describe("what is no recording is refused, and named", () => {
  test.each([
    ["an empty file", "", "empty", "no bytes"],
    ["a PNG", hex("89504e470d0a1a0a0000000d49484452"), "not-a-recording", "PNG picture"],
    ["a JPEG", hex("ffd8ffe000104a464946000101"), "not-a-recording", "JPEG picture"],
    ["a PDF", "%PDF-1.7\n1 0 obj\n", "not-a-recording", "PDF document"],
    ["a web page", "<!doctype html>\n<html><body>1,2</body></html>", "not-a-recording", "web page"],
    ["a program", hex("7f454c4602010100000000000000000003003e0001000000"), "not-a-recording", "program"],
    ["JSON", '{ "time": [0, 1, 2] }', "not-a-recording", "JSON"],
    ["bytes of no kind", hex("0001020300c8000009000a0000030005ff00"), "unknown-form", "neither text"],
    ["text without numbers", "Dear customer,\nthe car is ready.\n", "no-numbers", "no column of numbers"],
    ["one row", "Time (s),Front O2 (V)\n0,0.45\n", "too-few-rows", "only one row"],
    ["a header alone", "Time (s),Front O2 (V)\n", "too-few-rows", "a header but no rows"],
    ["names and units alone", "Zeit;Sonde vor Kat\ns;V\n", "too-few-rows", "a header but no rows"],
    ["one column", "Front O2 (V)\n0.1\n0.3\n0.2\n", "no-time", "no column of time"],
    [
      "a long form that only counts",
      "t;channel;value [nr]\n0;RPM;1\n1;RPM;2\n2;RPM;3\n",
      "no-numbers",
      "no column of numbers",
    ],
    ["a time alone", "Time (s)\n0.1\n0.2\n0.3\n", "no-numbers", "no column of numbers"],
    [
      "stamps at both ends of all numbers",
      "Time (s),Front O2 (V)\n-1e308,0.1\n0,0.2\n1e308,0.3\n",
      "no-time",
      "a thousand years",
    ],
    ["a stamp that is garbled", "Time (s),Front O2 (V)\n0,0.1\n1,0.2\n2e12,0.3\n", "no-time", "a thousand years"],
    ["a time that stands still", "Time (s),Front O2 (V)\n5,0.1\n5,0.2\n5,0.3\n", "no-time", "does not move"],
    [
      "100,000 columns",
      `${"Front,".repeat(100_000)}\n${"0.1,".repeat(100_000)}\n${"0.1,".repeat(100_000)}\n`,
      "too-large",
      "100001 columns",
    ],
  ])("%s", async (_, content, code, what) => {
    const problem = await problemOf(content);
    expect(problem).toMatchObject({ code, what: expect.stringContaining(what) });
    expect(problem.remedy.length).toBeGreaterThan(20);
  });

  test("a folder, as the browser shows it: a blob that cannot be read", async () => {
    const folder = {
      size: 4096,
      slice: () => ({ arrayBuffer: () => Promise.reject(new Error("NotReadableError")) }),
    } as unknown as Blob;
    const report = { progress: () => {}, signal: new AbortController().signal };
    const outcome = await settle(() => readCapture(blobSource(folder, "folder"), {}, report));
    expect(outcome).toMatchObject({ ok: false, problem: { code: "unreadable", where: "folder" } });
  });

  test("a cancel is heard", async () => {
    const report = { progress: () => {}, signal: AbortSignal.abort() };
    const blob = new Blob(["Time (s),Front O2 (V)\n", "0,1\n1,2\n2,3\n"]);
    const outcome = await settle(() => readCapture(blobSource(blob, "a.csv"), {}, report));
    expect(outcome).toMatchObject({ ok: false, problem: { code: "cancelled" } });
  });
});

describe("what can be read is read, with what was left out counted and located", () => {
  test("ragged rows and a cut last row", async () => {
    const capture = await open("Time (s),Front (V),Rear (V)\n0,0.1,0.2\n1,0.2\n2,0.3,0.4,9\n3,0.3,0.5\n4,0.");
    expect(values(channel(capture, "rear-o2"))).toEqual([0.2, Number.NaN, 0.4, 0.5]);
    expect(remarks(capture)).toContain("rows with fewer cells than columns: the rest was taken as missing @line 3 x1");
    expect(remarks(capture)).toContain("rows with more cells than columns: the rest was left out @line 4 x1");
    expect(remarks(capture)).toContain("the last row is cut off and was left out @line 6 x1");
  });

  test("NaN and text cells", async () => {
    const capture = await open("Time (s),Front (V),Rear (V)\n0,0.1,NaN\n1,broken,0.3\n2,0.3,0.4\n3,,0.4\n");
    expect(values(channel(capture, "front-o2"))).toEqual([0.1, Number.NaN, 0.3, Number.NaN]);
    expect(remarks(capture)).toContain("cells that are no numbers were taken as missing: Front @line 3 x1");
    expect(remarks(capture)).toContain("empty or marked cells were taken as missing: Rear, Front @line 2 x2");
  });

  test("a sentinel the user names", async () => {
    const capture = await open("Time (s),Front (mV)\n0,100\n1,-9999\n2,300\n", { missing: -9999 });
    expect(values(channel(capture, "front-o2"))).toEqual([0.1, Number.NaN, 0.3]);
  });

  test("time that runs backwards here and there, and repeated stamps", async () => {
    const capture = await open("Time (s),Front (V)\n0,1\n1,2\n0.5,9\n2,3\n2,8\n3,4\n4,5\n5,6\n6,7\n");
    expect(times(channel(capture, "front-o2"))).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(values(channel(capture, "front-o2"))).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(remarks(capture)).toContain("rows whose time runs backwards were left out @row 3 x1");
    expect(remarks(capture)).toContain("rows that repeat the stamp before were left out @row 5 x1");
  });

  test("time from late to early", async () => {
    const capture = await open("Time (s),Front (V)\n3,1\n2,2\n1,3\n0,4\n");
    expect(values(channel(capture, "front-o2"))).toEqual([4, 3, 2, 1]);
    expect(remarks(capture)).toContain("turned round");
  });

  test("a hole stays a hole", async () => {
    const capture = await open("Time (s),Front (V)\n0,1\n0.1,1\n0.2,1\n5.0,2\n5.1,2\n5.2,2\n");
    expect(times(channel(capture, "front-o2"))).toEqual([0, 0.1, 0.2, 5, 5.1, 5.2]);
    expect(channel(capture, "front-o2").series.time.kind).toBe("stamped");
  });

  test("a clock that starts again is put behind, after a gap", async () => {
    const part = Array.from({ length: 8 }, (_, i) => `${i / 10},0.${i}`).join("\n");
    const capture = await open(`Time (s),Front (V)\n${part}\n${part}\n`);
    expect(capture.channels[0]!.series.samples.length).toBe(16);
    expect(times(capture.channels[0]!)[8]).toBeCloseTo(1.7, 9);
    expect(remarks(capture)).toContain("time starts again inside the file");
  });

  test("a column that never holds a value has none", async () => {
    const capture = await open("Time (s),Front (V),Rear (V)\n0,0.1,\n1,0.2,\n2,0.3,\n");
    expect(values(capture.channels[1]!)).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    expect(capture.channels[1]!.role).toBe("other");
    expect(remarks(capture)).toContain("named as an oxygen sensor, but holds no value: Rear");
  });

  test("a log with one answer a row gives each channel its own stamps", async () => {
    const capture = await open(
      "Time (s),O2 B1S1 (V),O2 B1S2 (V)\n0.0,0.45,\n0.1,,0.6\n0.2,0.5,\n0.3,,0.61\n0.4,0.55,\n0.5,,0.62\n",
    );
    expect(values(channel(capture, "front-o2"))).toEqual([0.45, 0.5, 0.55]);
    expect(times(channel(capture, "rear-o2")).map((time) => Number(time.toFixed(9)))).toEqual([0.1, 0.3, 0.5]);
    expect(channel(capture, "rear-o2").polled).toBe(false);
  });

  test("a quote that is never closed, and quoted line breaks", async () => {
    const capture = await open('Time (s),"Front\n(V)"\n0,0.1\n1,"0.2"\n2,"0.3\n3,0.4\n4,0.5\n5,0.6\n6,0.7\n');
    expect(values(channel(capture, "front-o2"))).toContain(0.6);
    expect(remarks(capture)).toContain("a quote is never closed");
  });
});
