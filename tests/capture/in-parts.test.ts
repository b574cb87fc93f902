// A recording read in parts is the one that is read as a whole: the whole is the judge.

import { gzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import { NotInParts } from "../../src/capture/model/reader.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { isLongForm, ofKinds } from "../share.ts";
import { asWhole, expectSame, inParts, quiet } from "./parted.ts";

/** Rows of a text: three parts, the last of them a short one. */
const rowsInAll = 200_000;

interface Shape {
  readonly rows?: number;
  readonly header?: string;
  /** Text of a row, without its end. */
  row?(i: number): string;
}

/** Cells as text, each written once. */
function cells(write: (i: number) => string): (i: number) => string {
  const written: string[] = [];
  return (i) => {
    written[i] ??= write(i);
    return written[i];
  };
}
const front = cells((i) => (0.45 + 0.4 * Math.sin(i / 70)).toFixed(3));
const rear = cells((i) => (0.6 + 0.1 * Math.sin(i / 900)).toFixed(3));
const stampOf = (i: number) => (i / 1000).toFixed(6);

/** Time of day, from seconds. */
function clock(seconds: number): string {
  const two = (part: number) => String(Math.floor(part)).padStart(2, "0");
  const rest = (seconds % 60).toFixed(3).padStart(6, "0");
  return `${two((seconds / 3600) % 24)}:${two((seconds / 60) % 60)}:${rest}`;
}

/** The plain one, which many tests read: written once, handed out anew, as a test may change its bytes. */
let plain: Uint8Array | undefined;

function text(shape?: Shape): Uint8Array {
  if (shape) return written(shape);
  plain ??= written({});
  return plain.slice();
}

function written({
  rows = rowsInAll,
  header = "Time (s),Front O2 (V),Rear O2 (V)",
  row = (i) => `${stampOf(i)},${front(i)},${rear(i)}`,
}: Shape): Uint8Array {
  return new TextEncoder().encode(`${header}\n${Array.from({ length: rows }, (_, i) => row(i)).join("\n")}\n`);
}

describe("text in parts", () => {
  test("is the same with even stamps, with a late start, and with a stated rate", async () => {
    await expectSame(text(), "even.csv");
    await expectSame(text({ row: (i) => `${stampOf(i + 5_000_000)},${front(i)},${rear(i)}` }), "late.csv");
    const bare = { rows: 380_000, header: "Front O2 (V),Rear O2 (V)", row: (i: number) => `${front(i)},${rear(i)}` };
    await expectSame(text(bare), "bare.csv", { rate: 2500 });
  });

  test("is the same with stamps that jitter, and with holes in the middle and at the border of two parts", async () => {
    const jitter = (i: number) => ((i + 0.3 * Math.sin(i * i)) / 1000).toFixed(6);
    await expectSame(text({ row: (i) => `${jitter(i)},${front(i)},${rear(i)}` }), "jitter.csv", {}, 1e-6);
    const { sizes } = await inParts(text(), "even.csv");
    const border = sizes[0]! + sizes[1]!;
    for (const at of isLongForm ? [border, border + 1, border - 1, 150_000] : [border, border - 1]) {
      const late = (i: number) => stampOf(i < at ? i : i + 2500);
      const capture = await expectSame(text({ row: (i) => `${late(i)},${front(i)},${rear(i)}` }), "hole.csv", {}, 1e-6);
      expect(capture.remarks.some((remark) => /holes/.test(remark.text) && remark.count === 1)).toBe(true);
    }
  });

  test("is the same with odd lines, empty cells, quotes from some line on, and a cut last row", async () => {
    const odd = (i: number) => {
      if (i === 140_000) return "# a word of the recorder";
      if (i === 190_001) return `${stampOf(i)},,${rear(i)}`;
      if (i === 170_000) return `${stampOf(i)},0.4512345678,${rear(i)}`;
      return `${stampOf(i)},${front(i)},${rear(i)}`;
    };
    await expectSame(text({ row: odd }), "odd.csv", {}, 1e-6);
    const quoted = (i: number) => `${stampOf(i)},${i < 110_000 ? front(i) : `"${front(i)}"`},${rear(i)}`;
    await expectSame(text({ row: quoted }), "quoted.csv");
    const whole = text();
    await expectSame(whole.slice(0, whole.length - 3), "cut.csv");
  });

  test("keeps units, marks, names and roles of the whole", async () => {
    const millivolts = (i: number) => `${stampOf(i)},${(1000 * Number(front(i))).toFixed(0)},${rear(i)},7,,${i % 90}`;
    const header = "Time,Front O2,Rear O2 (V),Rear O2 again (V),Coolant,";
    await expectSame(text({ header, row: millivolts }), "units.csv");
    const marked = (i: number) => `${stampOf(i)},${i % 1000 === 0 ? "-99" : front(i)},${rear(i)}`;
    await expectSame(text({ row: marked }), "marked.csv", { missing: -99, roles: { "Rear O2": "rear-o2" } });
    await expectSame(text({ header: "Time (s),A (V),B (V)" }), "nameless.csv");
  });

  const border = 159_936; // rows before the last part, here
  const stamps: readonly (readonly [string, (i: number) => string, RegExp])[] = [
    ["that start again at a border", (i) => stampOf(i % border), /starts again/],
    ["that start again within a part", (i) => stampOf(i % 130_007), /starts again/],
    ["that repeat now and then", (i) => stampOf(i % 9973 === 0 ? Math.max(0, i - 1) : i), /repeat the stamp/],
    [
      "that are missing now and then, a while long too",
      (i) => (i % 9973 < i / 3000 ? "-" : stampOf(i)),
      /readable time/,
    ],
    ["that step back now and then", (i) => stampOf(i % 20_011 < 3 ? Math.max(0, i - 12) : i), /runs backwards/],
    ["that step back at a border", (i) => stampOf(Math.abs(i - border) < 2 ? i - 9 : i), /runs backwards/],
    ["that many rows share", (i) => (Math.floor(i / 37) / 10).toFixed(1), /share one stamp/],
    [
      "that many rows share, and that start again",
      (i) => (Math.floor((i % 99_991) / 7) / 10).toFixed(1),
      /starts again/,
    ],
    ["of a clock past midnight", (i) => clock(i / 1000 + 86_250), /^$/],
  ];
  const shortOfStamps = [
    "that start again at a border",
    "that are missing now and then, a while long too",
    "that step back at a border",
    "that many rows share, and that start again",
  ];
  test.each(ofKinds(shortOfStamps, stamps))("is the same with stamps %s", async (_, stamp, said) => {
    const shape = { row: (i: number) => `${stamp(i)},${front(i)},${rear(i)}` };
    const capture = await expectSame(text(shape), "stamps.csv", {}, 1e-6);
    expect(capture.remarks.map(({ text: told }) => told).join()).toMatch(said);
  });

  const wholeOnly: readonly (readonly [string, Shape])[] = [
    ["time that runs from late to early", { row: (i) => `${stampOf(400_000 - i)},${front(i)},${rear(i)}` }],
    [
      "time that runs from late to early after a while",
      { row: (i) => `${stampOf(i < 60_000 ? i : 900_000 - i)},${front(i)},${rear(i)}` },
    ],
    [
      "stamps that become coarser than the rows",
      { row: (i) => `${i < 150_000 ? stampOf(i) : (i / 1000).toFixed(1)},${front(i)},${rear(i)}` },
    ],
    ["a mark for no value", { row: (i) => `${stampOf(i)},${i % 1000 === 0 ? "-99" : front(i)},${rear(i)}` }],
    ["a log that becomes a polled one", { row: (i) => `${stampOf(i < 60_000 ? i : 200 * i)},${front(i)},${rear(i)}` }],
    [
      "numbers that show another unit late",
      {
        header: "Time (s),Front O2,Rear O2 (V)",
        row: (i) => `${stampOf(i)},${i < 190_000 ? "0" : (1000 * Number(front(i))).toFixed(0)},${rear(i)}`,
      },
    ],
    ["a channel that begins late", { row: (i) => `${stampOf(i)},${i < 190_000 ? "" : front(i)},${rear(i)}` }],
    [
      "values in some rows only, later",
      {
        row: (i) => `${stampOf(i)},${i > 50_000 && i % 4 > 0 ? "" : front(i)},${rear(i)}`,
      },
    ],
    [
      "a second table",
      {
        row: (i) =>
          i === 190_000
            ? "Time (s),Speed (1/min)"
            : i < 190_000
              ? `${stampOf(i)},${front(i)},${rear(i)}`
              : `${stampOf(i)},${i % 900}`,
      },
    ],
    ["a polled log", { row: (i) => `${(i / 10).toFixed(1)},${front(i)},${rear(i)}` }],
  ];
  const shortOfWhole = [
    "time that runs from late to early after a while",
    "a log that becomes a polled one",
    "a channel that begins late",
    "a second table",
  ];
  test.each(ofKinds(shortOfWhole, wholeOnly))("is given up for %s", async (_, shape) => {
    await expect(inParts(text(shape), "odd.csv")).rejects.toThrow(NotInParts);
    await asWhole(text(shape), "odd.csv");
  });

  test("is not begun below the size that is to be parted", async () => {
    const take = () => Promise.reject(new RangeError("not asked for"));
    const parts = { wants: (columns: number) => columns > 1e8, bytes: 1000, take };
    const capture = await readCapture(memorySource(text(), "small.csv"), {}, { ...quiet, parts });
    expect(capture.channels[0]!.series.samples.length).toBe(rowsInAll);
  });
});

/** RIFF WAVE, 16-bit PCM, two channels, 10,000 a second (Multimedia Programming Interface and Data Specifications 1.0). */
function wave(frames: number, over = 0): Uint8Array {
  const bytes = new Uint8Array(44 + 4 * frames + over);
  const view = new DataView(bytes.buffer);
  const words = ["RIFF", 36 + 4 * frames, "WAVE", "fmt ", 16] as const;
  words.forEach((word, i) => {
    if (typeof word === "number") view.setUint32(4 * i, word, true);
    else new TextEncoder().encodeInto(word, bytes.subarray(4 * i, 4 * i + 4));
  });
  view.setUint32(20, 1 | (2 << 16), true);
  view.setUint32(24, 10_000, true);
  view.setUint32(28, 40_000, true);
  view.setUint32(32, 4 | (16 << 16), true);
  new TextEncoder().encodeInto("data", bytes.subarray(36, 40));
  view.setUint32(40, 4 * frames + over, true);
  for (let i = 0; i < frames; i++) {
    view.setInt16(44 + 4 * i, Math.round(9000 * Math.sin(i / 70)), true);
    view.setInt16(46 + 4 * i, i % 1000, true);
  }
  return bytes;
}

describe("frames in parts", () => {
  test("of WAV are the same, scaled or not, and where the last frame is cut", async () => {
    await expectSame(wave(1_250_000), "a.wav");
    await expectSame(wave(1_250_003, 3), "cut.wav", { layout: "scale=5 unit=V names=Front,Rear" });
  });

  test("of raw numbers are the same", async () => {
    const numbers = Float32Array.from({ length: 1_300_002 }, (_, i) =>
      i % 5000 === 0 ? Number.NaN : Math.sin(i / 300),
    );
    const layout = "f32le channels=2 rate=1000 names=Front_O2,Rear_O2 unit=V";
    await expectSame(new Uint8Array(numbers.buffer), "a.raw", { layout });
    await expectSame(new Uint8Array(numbers.buffer).slice(0, -3), "a.raw", { layout });
  });
});

describe("archives in parts", () => {
  test("of text and WAV are the same, packed by gzip or zip", async () => {
    const csv = text();
    await expectSame(gzipSync(csv, { level: 1 }), "a.csv.gz");
    await expectSame(zipSync({ "readme.md": csv.subarray(0, 9), "run/a.csv": [csv, { level: 1 }] }), "a.zip");
    await expectSame(zipSync({ "a.csv": [csv, { level: 0 }] }), "a.zip");
    await expectSame(zipSync({ "a.wav": [wave(1_250_000), { level: 1 }] }), "a.zip");
  });

  test("of two members, cut short, or with a flipped bit are the same, remarks and all", async () => {
    const csv = text();
    const half = csv.indexOf(10, csv.length / 2) + 1;
    const packed = [csv.subarray(0, half), csv.subarray(half)].map((part) => gzipSync(part, { level: 1 }));
    await expectSame(Buffer.concat(packed), "a.csv.gz");
    const whole = gzipSync(csv, { level: 1 });
    // Where the last four bytes, which say the size of a whole one, are small by chance: as digits kept depend on the size.
    const end = whole.subarray(0, -200_000).lastIndexOf(0) + 1;
    const cut = await expectSame(whole.subarray(0, end), "a.csv.gz");
    expect(cut.remarks.some(({ text: said }) => said.includes("damaged or cut off"))).toBe(true);
    const flipped = zipSync({ "a.csv": [csv, { level: 0 }] });
    flipped[flipped.length - 1_000_003] = 0x35;
    const wrong = await expectSame(flipped, "a.zip");
    expect(wrong.remarks.some(({ text: said }) => said.includes("checksum"))).toBe(true);
  });

  test("are given up where how much there is must be known, and is guessed", async () => {
    const packed = gzipSync(wave(100_000), { level: 1 });
    await expect(inParts(packed, "a.wav.gz")).rejects.toThrow(NotInParts);
    expect((await asWhole(packed, "a.wav.gz")).channels[0]!.series.samples.length).toBe(100_000);
  });
});

test("a part that cannot be kept ends the reading with its own trouble", async () => {
  const trouble = new RangeError("full");
  const parts = { wants: () => true, bytes: 400_000, take: () => Promise.reject(trouble) };
  await expect(readCapture(memorySource(text(), "a.csv"), {}, { ...quiet, parts })).rejects.toBe(trouble);
});
