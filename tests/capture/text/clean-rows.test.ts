import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { memorySource } from "../../../src/capture/bytes/sources.ts";
import type { Capture } from "../../../src/capture/model/capture.ts";
import { readCapture } from "../../../src/capture/readers.ts";
import { ProblemError } from "../../../src/problem.ts";

const partials: Capture[] = [];
const report = {
  progress: () => {},
  partial: (capture: Capture) => void partials.push(capture),
  signal: new AbortController().signal,
};

async function read(text: string): Promise<Capture | string> {
  try {
    const capture = await readCapture(memorySource(new TextEncoder().encode(text), "a.csv"), {}, report);
    const remarks = [...capture.remarks].sort((a, b) => (a.text < b.text ? -1 : 1));
    return { ...capture, remarks };
  } catch (error) {
    if (error instanceof ProblemError) return error.problem.code;
    throw error;
  }
}

const number = fc.oneof(
  fc.integer({ min: -999, max: 999 }).map(String),
  fc.double({ min: -10, max: 10, noNaN: true }).map((v) => v.toFixed(4)),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
);
const cell = fc.oneof(
  { weight: 30, arbitrary: number },
  fc.constantFrom("", " 0.5 ", "NaN", "--", "0.5 V", "open", "1e999"),
);
const plainRow = fc.tuple(number, number).map((cells) => cells.join(","));
const row = fc.oneof(
  { weight: 30, arbitrary: plainRow },
  { weight: 5, arbitrary: fc.tuple(cell, cell).map((cells) => cells.join(",")) },
  fc.constantFrom("1", "1,2,3", "", "# paused", "front V,rear V", "Battery low", '0.1,"0.2"', "0.1\r0.2,0.3"),
);

describe("clean text", () => {
  // Judge: the careful reader, which takes over for the whole text because a name in the header is quoted.
  test("is read to the same capture as the careful reader makes of it, odd lines and all", async () => {
    const texts = fc.record({
      rows: fc.array(row, { maxLength: 60 }),
      end: fc.constantFrom("\n", "\r\n"),
      tail: fc.constantFrom("", "9", "9,0.5,0.6"),
    });
    await fc.assert(
      fc.asyncProperty(texts, async ({ rows, end, tail }) => {
        const plain = Array.from({ length: 30 }, (_, i) => `${i},0.${i},0.5`);
        const lines = [
          ...plain,
          ...rows.map((cells, i) => (/^[-\d. ]|^,|^NaN|^open|^1e/.test(cells) ? `${30 + i},${cells}` : cells)),
          tail,
        ];
        const [quick, careful] = await Promise.all([
          read(["time s,front V,rear V", ...lines].join(end)),
          read(['"time s",front V,rear V', ...lines].join(end)),
        ]);
        expect(quick).toEqual(careful);
      }),
      { numRuns: 300, examples: [[{ rows: [""], end: "\n" as const, tail: "9" as const }]] },
    );
  }, 60_000);

  test("shows what has been read so far, and adds to it", async () => {
    partials.length = 0;
    const lines = Array.from({ length: 1_300_000 }, (_, i) => `${(i / 1000).toFixed(3)},0.${i % 1000},0.5`);
    const whole = await read(`time s,front V,rear V\n${lines.join("\n")}\n`);
    if (typeof whole === "string") throw new Error(whole);
    expect(partials.length).toBeGreaterThan(1);
    for (const { channels } of partials) {
      const { samples } = channels[0]!.series;
      const same = whole.channels[0]!.series.samples.subarray(0, samples.length);
      expect(samples.every((value, i) => value === same[i])).toBe(true);
    }
  });

  test("looks for repeated values only once all rows are there", async () => {
    partials.length = 0;
    const volts = (row: number) => (0.5 + 0.4 * Math.sin(Math.floor(row / 10))).toFixed(3);
    const lines = Array.from({ length: 60_000 }, (_, i) => `${(i / 100).toFixed(2)},${volts(i)},0.5`);
    const whole = await read(`time s,front V,rear V\n${lines.join("\n")}\n`);
    if (typeof whole === "string") throw new Error(whole);
    expect(partials.at(-1)?.channels[0]?.series.samples.length).toBe(60_000);
    // Each value stays for ten rows: one sample of it, and the last row.
    expect(whole.channels[0]!.series.samples.length).toBe(6_001);
  });
});
