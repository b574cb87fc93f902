// The comparing command as a script would call it: spawned for real, on the sample traces, whose truth is on file.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { root } from "../../src/command/setup.mjs";
import { call } from "./call.ts";

const compare = (...words: string[]) => call("compare", words, root);

const sample = (name: string) => join("sample-traces", name);

/** Median of the truth over the lift-offs of a sample trace. */
function truth(name: string, key: "delay" | "oxygenPassed"): number {
  const { liftOffs } = JSON.parse(readFileSync(join(root, sample(name)), "utf8"));
  const values = liftOffs.map((event: Record<string, number>) => event[key]).sort((a: number, b: number) => a - b);
  return values[values.length >> 1];
}

describe("compare", () => {
  test("answers with the promised keys, and bounds that hold the simulator's truth", () => {
    const { status, stdout, stderr } = compare(
      sample("dead-catalyst-scope.csv.gz"),
      sample("good-catalyst-scope.csv.gz"),
      "--json",
    );
    expect(stderr).toBe("");
    expect(status).toBe(0);
    const answer = JSON.parse(stdout);
    expect([answer.suspect, answer.reference]).toEqual(["dead-catalyst-scope.csv.gz", "good-catalyst-scope.csv.gz"]);
    for (const one of answer.fair) expect(one).toMatchObject({ what: expect.any(String), ok: true });
    const [delay, oxygen] = answer.differences;
    expect([delay.reading, delay.told, oxygen.reading, oxygen.told]).toEqual([
      "delay",
      "shorter",
      "storedOxygen",
      "lower",
    ]);
    for (const [found, key] of [
      [delay, "delay"],
      [oxygen, "oxygenPassed"],
    ] as const) {
      const ratio = truth("dead-catalyst-scope.truth.json", key) / truth("good-catalyst-scope.truth.json", key);
      expect(found.ratio.low).toBeLessThan(ratio);
      expect(found.ratio.high).toBeGreaterThan(ratio);
    }
  });

  test("prints whether it is fair before any reading, and exits as measure does", () => {
    const polled = sample("good-catalyst-polled.csv");
    const { status, stdout } = call("compare", [polled, sample("known-good-city-car-scope.csv.gz")], root, true);
    expect(status).toBe(0);
    expect(stdout.indexOf("Fair comparison")).toBeLessThan(stdout.indexOf("Readings"));
    expect(stdout).toMatch(/front sample rate.*UNLIKE/);
    expect(stdout).not.toMatch(/NaN|undefined|\[object/);
    expect(compare(polled).status).toBe(2);
    expect(compare(polled, polled, polled).status).toBe(2);
    const missing = compare(polled, "nowhere.csv");
    expect([missing.status, missing.stdout]).toEqual([1, ""]);
    expect(missing.stderr).toMatch(/nowhere\.csv.*no such file/);
  });
});
