import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { WaveFile } from "wavefile";
import { numberTable } from "../../src/capture/formats/number-table.ts";
import { layoutOf, saidIn, statesType } from "../../src/capture/model/layout.ts";
import { layoutInWords, numberKinds } from "../../src/capture/model/layout-words.ts";
import { RemarkBook } from "../../src/capture/model/remarks.ts";
import { channel, open, problemOf, remarks, times, values } from "./open.ts";

const golden = (name: string): Uint8Array => readFileSync(new URL(`../golden/capture/${name}`, import.meta.url));

/** Written by the independent package wavefile: two channels at 1 kHz. */
function wav(depth: string, left: number[], right: number[], container = "RIFF"): Uint8Array {
  const file = new WaveFile();
  file.fromScratch(2, 1000, depth, [left, right], { container });
  return file.toBuffer();
}

/** The same file with a WAVEFORMATEXTENSIBLE chunk: 40 bytes, code 0xFFFE, the code itself at the head of a GUID. */
function extensible(plain: Uint8Array): Uint8Array {
  const out = new Uint8Array(plain.length + 24);
  out.set(plain.subarray(0, 36));
  out.set(plain.subarray(36), 60);
  const view = new DataView(out.buffer);
  view.setUint32(4, out.length - 8, true);
  view.setUint32(16, 40, true);
  view.setUint16(20, 0xfffe, true);
  view.setUint16(36, 22, true);
  view.setUint16(38, 24, true);
  out.set([1, 0, 0, 0, 0, 0, 16, 0, 128, 0, 0, 170, 0, 56, 155, 113], 44);
  return out;
}

describe("WAV written by another library", () => {
  const shape = [0, 0.5, 0.25, -0.5, -1];

  test.each(["8", "16", "24", "32"])("PCM %s bit is read as parts of full scale", async (depth) => {
    const full = 2 ** (Number(depth) - 1);
    const whole = shape.map((value) => value * full + (depth === "8" ? 128 : 0));
    const capture = await open(wav(depth, whole, whole.toReversed()), {}, "unknown");
    expect(values(capture.channels[0]!)).toEqual(shape);
    expect(values(capture.channels[1]!)).toEqual(shape.toReversed());
    expect(capture.channels[0]!.series.time).toEqual({ kind: "even", start: 0, step: 0.001, count: 5 });
  });

  test.each(["32f", "64"])("float %s is read as it is", async (depth) => {
    const capture = await open(wav(depth, shape, shape), {}, "unknown");
    expect(values(capture.channels[1]!)).toEqual(shape);
  });

  test("RF64 and the extensible format chunk", async () => {
    const bytes = wav("24", [0, 4194304, -8388608], [0, 0, 0], "RF64");
    expect(values((await open(bytes)).channels[0]!)).toEqual([0, 0.5, -1]);
    expect(values((await open(extensible(wav("24", [0, 4194304, -8388608], [1, 2, 3])))).channels[0]!)).toEqual([
      0, 0.5, -1,
    ]);
  });

  test("a stated scale, unit and names give volts and roles", async () => {
    const capture = await open(wav("16", [0, 16384, 3277], [0, 0, 0]), { layout: "scale=2 unit=V names=Front,Rear" });
    expect(values(channel(capture, "front-o2"))[1]).toBe(1);
    expect(channel(capture, "rear-o2").unit).toBe("V");
  });

  test("a header that claims too much reads what is there, and says so", async () => {
    const bytes = wav("16", [1, 2, 3, 4], [5, 6, 7, 8]);
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(40, 2 ** 31 - 1, true);
    const capture = await open(bytes);
    expect(capture.channels[0]!.series.samples.length).toBe(4);
    expect(remarks(capture)).toContain("claims 2147483647 bytes");
  });

  test("compressed kinds are refused", async () => {
    const file = new WaveFile(wav("16", [1, 2, 3, 4], [5, 6, 7, 8]));
    file.toMuLaw();
    expect((await problemOf(file.toBuffer())).code).toBe("not-a-recording");
  });
});

describe("NumPy's own files", () => {
  test("a structured array by its field names", async () => {
    const capture = await open(golden("structured.npy"));
    expect(times(channel(capture, "front-o2"))).toEqual([0, 0.5, 1]);
    expect(values(channel(capture, "front-o2")).map((volts) => Math.fround(volts * 1000))).toEqual(
      [0.1, 0.2, 0.3].map(Math.fround),
    );
  });

  test("a matrix, its first column rising", async () => {
    const capture = await open(golden("matrix.npy"));
    expect(capture.channels.map(values)).toEqual([
      [0.1, 0.2, 0.3],
      [0.2, 0.3, 0.4],
    ]);
  });

  test("arrays beside each other, with a time or with a rate", async () => {
    expect(channel(await open(golden("arrays.npz")), "rear-o2").series.time).toMatchObject({
      kind: "even",
      step: 0.01,
      count: 5,
    });
    expect(channel(await open(golden("arrays-rate.npz")), "front-o2").series.time).toMatchObject({
      kind: "even",
      step: 0.005,
    });
  });
});

test("seconds and nanoseconds in columns of their own are one time in binary tables too", () => {
  const columns = [
    { header: "sec", values: Float64Array.from({ length: 200 }, (_, i) => 1_700_000_000 + Math.floor(i / 100)) },
    { header: "nanosec", values: Float64Array.from({ length: 200 }, (_, i) => (i % 100) * 10_000_000) },
    { header: "front_v", values: Float64Array.from({ length: 200 }, (_, i) => 0.4 + (i % 3) / 10) },
  ];
  const capture = numberTable({ name: "run.npy", format: "NumPy" }, columns, {}, new RemarkBook());
  expect(capture.channels.map(({ name }) => name)).toEqual(["front_v"]);
  expect(capture.channels[0]!.series.time).toEqual({ kind: "even", start: 0, step: 0.01, count: 200 });
  expect(capture.startedAt).toBe("2023-11-14T22:13:20.000Z");
});

test("Parquet with stamps of its own type, Snappy inside", async () => {
  const capture = await open(golden("log.parquet"));
  expect(capture.startedAt).toBe("2024-05-01T12:00:00.000Z");
  expect(channel(capture, "front-o2").series.time).toMatchObject({ kind: "even", step: 0.25, count: 40 });
  // The numbers that were given to the writer.
  expect(values(channel(capture, "front-o2"))).toEqual(
    Array.from({ length: 40 }, (_, i) => Math.round((0.45 + 0.4 * Math.sin(i)) * 1000) / 1000),
  );
  expect(values(channel(capture, "rear-o2"))[39]).toBe(0.639);
  expect(remarks(capture)).toContain("left out as they hold no numbers: note");
});

describe("raw numbers", () => {
  test("are read by the stated layout", async () => {
    const bytes = new Uint8Array(4 + 8);
    const view = new DataView(bytes.buffer);
    [100, -200, 300, -400].forEach((value, i) => {
      view.setInt16(4 + 2 * i, value, false);
    });
    const capture = await open(bytes, {
      layout: "i16be channels=2 rate=50 scale=0.01 offset=1 skip=4 names=Front,Rear unit=V",
    });
    expect(values(channel(capture, "front-o2"))).toEqual([2, 4]);
    expect(values(channel(capture, "rear-o2"))).toEqual([-1, -3]);
    expect(channel(capture, "rear-o2").series.time).toMatchObject({ step: 0.02 });
  });

  test("are read by the same layout in plain words, in any order, with either decimal mark", () => {
    const want = layoutOf("i16be channels=2 rate=50 scale=0.01 offset=1 skip=4 names=Front,Rear unit=V");
    const words =
      "16-bit whole, high byte first, 2 channels, 50 per second, times 0.01, plus 1, unit V, names Front / Rear, skip 4 bytes";
    expect(layoutOf(words)).toEqual(want);
    expect(layoutInWords(saidIn(words))).toBe(words);
    expect(
      layoutOf(
        "Skip 4 bytes; names Front/Rear; times 0,01; plus 1; unit V; 2 channels, 50 samples a second, high byte first, 16 bit whole numbers",
      ),
    ).toEqual(want);
    for (const [kind, type] of numberKinds) expect(layoutOf(kind).type).toBe(type);
    expect(() => layoutOf("16-bit whole, 2 pipes")).toThrow(/2 pipes/);
    expect(() => layoutOf("2 channels, 50 per second")).toThrow(/not understood/);
    // One a second, or a thousand: neither is guessed.
    expect(() => layoutOf("16-bit whole, 1,000 per second")).toThrow(/"1,000 per second".*not understood/);
    expect([statesType("times 5, unit V"), statesType(words), statesType("hello")]).toEqual([false, true, true]);
  });

  // NaN is the only missing sample (DEVELOPERS.md, "Rules that reviews look for").
  test("takes what is not finite as missing, and nothing beside it", async () => {
    const bytes = new Uint8Array(
      Float32Array.of(1, 5, Number.POSITIVE_INFINITY, 6, 3, 7, Number.NaN, 8, 4, -Infinity).buffer,
    );
    const capture = await open(bytes, { layout: "f32le channels=2 rate=10" });
    expect(capture.channels.map(values)).toEqual([
      [1, Number.NaN, 3, Number.NaN, 4],
      [5, 6, 7, 8, Number.NaN],
    ]);
  });

  test("want a rate, and a layout that is understood", async () => {
    expect((await problemOf(new Uint8Array(64), { layout: "f32le channels=2" })).code).toBe("no-time");
    expect((await problemOf(new Uint8Array(64), { layout: "f31le channels=2" })).code).toBe("bad-layout");
    expect((await problemOf(new Uint8Array(64), { layout: "f32le channels=0 rate=1" })).what).toContain("channels 0");
    expect((await problemOf(new Uint8Array(64).fill(1, 7, 9))).code).toBe("unknown-form");
  });
});
