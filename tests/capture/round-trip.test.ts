import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import type { Capture, Channel } from "../../src/capture/model/capture.ts";
import { csvCell, csvPieces } from "../../src/capture/writing/write-csv.ts";
import { channel, open, times, values } from "./open.ts";
import { writeNpy } from "./written.ts";

const writeCsv = (...given: Parameters<typeof csvPieces>) => [...csvPieces(...given)].join("");

const shape = ({ channels }: Capture) =>
  channels.map((one) => ({ name: one.name, unit: one.unit, role: one.role, times: times(one), values: values(one) }));

const log =
  "Time (ms);Front O2 (mV);Rear O2 (mV);MAF (kg/h);Coolant (°F);Ignition (deg)\n0;9;600;36,1;190;-3\n251;450;;36,2;190;4,25\n498;7,3;620;36,3;191;1e-7\n760;455;630;36,9;191;0,1\n";

describe("written out and read again", () => {
  test("a stamped log as CSV: the same stamps and samples", async () => {
    const first = await open(log);
    const again = await open(writeCsv(first.channels, null));
    expect(shape(again)).toEqual(shape(first));
  });

  test("an even capture as CSV and as .npy: the same steps and samples", async () => {
    const rows = Array.from({ length: 300 }, (_, i) => `${(i / 3000).toFixed(7)},${Math.sin(i).toFixed(4)}`);
    const first = await open(`Time (s),Front (V)\n${rows.join("\n")}\n`);
    expect(first.channels[0]!.series.time).toMatchObject({ kind: "even", count: 300 });
    for (const bytes of [writeCsv(first.channels, null), writeNpy(first.channels, null)]) {
      const again = await open(bytes);
      expect(again.channels[0]!.series.time).toEqual(first.channels[0]!.series.time);
      expect(shape(again)).toEqual(shape(first));
    }
  });

  test("channels with times of their own", async () => {
    const first = await open(
      "time,channel,value\n0,RPM,800\n0.1,O2 B1S1,0.45\n0.23,RPM,810\n0.3,O2 B1S1,0.55\n0.5,RPM,820\n",
    );
    const again = await open(writeCsv(first.channels, null));
    expect(again.channels.map(times)).toEqual(first.channels.map(times));
    expect(again.channels.map(values)).toEqual(first.channels.map(values));
  });

  test("a span holds its samples and no others", async () => {
    const first = await open(log);
    const again = await open(writeCsv(first.channels, { from: 0.251, to: 0.76 }));
    expect(values(channel(again, "front-o2"))).toEqual(values(channel(first, "front-o2")).slice(1, 3));
  });

  test("any finite samples and rising stamps", async () => {
    const double = fc.double({ noDefaultInfinity: true, noNaN: true });
    const rows = fc.array(fc.tuple(fc.integer({ min: 1, max: 5000 }), double, fc.option(double, { nil: Number.NaN })), {
      minLength: 6,
      maxLength: 40,
    });
    // A channel with holes in a quarter of the rows or more may be one with stamps of its own; here holes are missing samples.
    const few = (drawn: readonly (readonly [number, number, number])[]) =>
      drawn.filter((row) => Number.isNaN(row[2])).length * 4 < drawn.length;
    await fc.assert(
      fc.asyncProperty(rows.filter(few), async (drawn) => {
        const stamps = new Float64Array(drawn.length);
        for (let i = 1; i < stamps.length; i++)
          stamps[i] = Math.round((stamps[i - 1]! + drawn[i]![0] / 1000) * 1000) / 1000;
        const made = (name: string, pick: 1 | 2): Channel => ({
          ...{ id: name, name, unit: "V", fileUnit: "V", role: "other", bank: 1, polled: false },
          series: { time: { kind: "stamped", stamps }, samples: Float64Array.from(drawn, (row) => row[pick]) },
        });
        const channels = [made("A", 1), made("B", 2)];
        for (const bytes of [writeCsv(channels, null), writeNpy(channels, null)]) {
          const again = await open(bytes);
          expect(again.channels.map(values)).toEqual(channels.map(values));
          times(again.channels[0]!).forEach((time, i) => {
            expect(time).toBeCloseTo(stamps[i]!, 9);
          });
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe("for other programs", () => {
  test("Papa Parse reads what we write, with quotes and line breaks in names", async () => {
    const [one] = (await open(log)).channels;
    const named = { ...one!, name: 'a "b", c\nd' };
    const { data, errors } = Papa.parse<string[]>(writeCsv([named], null), { skipEmptyLines: true });
    expect(errors).toEqual([]);
    expect(data[0]).toEqual(["Time [s]", 'a "b", c\nd [V]']);
    expect(data[1]).toEqual(["0", "0.009"]);
  });

  test("no cell is a formula", () => {
    for (const text of ["=1+1", "+A1", "-A1", "@sum", "\tx"]) expect(csvCell(text).replace(/^"/, "")).toMatch(/^'/);
    expect(csvCell("Front O2")).toBe("Front O2");
  });

  const hasNumPy = spawnSync("python3", ["-c", "import numpy"]).status === 0;
  test.skipIf(!hasNumPy)("NumPy loads our .npy", async () => {
    const folder = mkdtempSync(join(tmpdir(), "npy-"));
    const path = join(folder, "out.npy");
    writeFileSync(path, writeNpy((await open(log)).channels, null));
    const script = `import numpy as np; a = np.load(${JSON.stringify(path)}); print(a.dtype.names[1], a.shape[0], a['Front O2 [V]'][1], a['Time [s]'][3])`;
    expect(execFileSync("python3", ["-c", script], { encoding: "utf8" }).trim()).toBe("Front O2 [V] 4 0.45 0.76");
    rmSync(folder, { recursive: true });
  });
});
