// The committed sample files are what the simulator makes, and their truth agrees with them.

import { readdirSync, readFileSync, statSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { knownGoodTraces, sampleTraces } from "../../sample-traces/index.ts";
import { makeSample, sampleFiles } from "../../sample-traces/simulator/samples.ts";
import type { Truth } from "../../sample-traces/simulator/truth.ts";

const folder = new URL("../../sample-traces/", import.meta.url);
const textOf = (name: string) => {
  const bytes = readFileSync(new URL(name, folder));
  return name.endsWith(".gz") ? gunzipSync(bytes) : bytes;
};
const truthOf = (name: string) => JSON.parse(readFileSync(new URL(`${name}.truth.json`, folder), "utf8")) as Truth;

describe("sample files", () => {
  test.each(["dead-catalyst-polled.csv", "rear-sensor-asleep-scope.csv.gz"])(
    "%s is made again byte for byte",
    (name) => {
      const bare = name.replace(/[.]csv([.]gz)?$/, "");
      const made = makeSample(sampleFiles.find((file) => file.name === bare)!);
      expect(textOf(name).equals(Buffer.from(made.text))).toBe(true);
      expect(truthOf(bare)).toEqual(made.truth);
    },
  );

  test("all stand there, each with its truth, and take less than 6 MB", () => {
    const present = readdirSync(folder);
    for (const { name, recorder } of sampleFiles) {
      expect(present).toContain(`${name}.csv${recorder.kind === "scope" ? ".gz" : ""}`);
      expect(present).toContain(`${name}.truth.json`);
    }
    for (const { file, url } of [...sampleTraces, ...knownGoodTraces]) {
      expect(present).toContain(file);
      expect(url.pathname.endsWith(file)).toBe(true);
    }
    const bytes = present.map((name) => statSync(new URL(name, folder))).filter((stat) => stat.isFile());
    expect(bytes.reduce((sum, { size }) => sum + size, 0)).toBeLessThan(6e6);
  });

  test.each(sampleFiles.map(({ name }) => name))(
    "%s tells three lift-offs, in the order of cause and effect",
    (name) => {
      const { liftOffs, rearAwakeAt } = truthOf(name);
      expect(liftOffs).toHaveLength(3);
      for (const event of liftOffs) {
        expect(event.at).toBeLessThan(event.cutFrom);
        expect(event.frontFall!).toBeGreaterThan(event.cutFrom);
        expect(event.cutTo - event.cutFrom).toBeGreaterThan(3);
        if (rearAwakeAt === null) expect(event.rearFall).toBeNull();
        else expect(event.rearFall! - event.frontFall!).toBeCloseTo(event.delay!, 5);
      }
    },
  );

  // Independent of the simulator's own truth: the fall is looked for in the noisy file itself.
  test.each(["good-catalyst", "dead-catalyst"])("%s-scope.csv.gz holds its falls where the truth says", (name) => {
    const rows = textOf(`${name}-scope.csv.gz`).toString("utf8").trim().split("\n").slice(1);
    const { liftOffs } = truthOf(`${name}-scope`);
    for (const { frontFall, rearFall } of liftOffs) {
      for (const [column, fall] of [
        [1, frontFall!],
        [2, rearFall!],
      ] as const) {
        const level = (seconds: number) => Number(rows[Math.round(seconds * 1000)]!.split(",")[column]);
        expect(level(fall - 0.01)).toBeGreaterThan(0.45);
        expect(level(fall + 0.01)).toBeLessThan(0.45);
      }
    }
  });
});
