// The one table of thresholds: what a job changes takes effect, and is named wherever a finding may rest on it.

import { describe, expect, test } from "vitest";
import { analyse } from "../../src/exhaust/analyse.ts";
import {
  defaultLimits,
  type LimitName,
  type LimitOverrides,
  limitsInForce,
  shownLimit,
  storedLimit,
} from "../../src/exhaust/terms/limits.ts";
import { capture, even, square } from "./make.ts";

const made = capture(even("front-o2", 30, 100, square(1)), even("rear-o2", 30, 100, square(1, 0.1)));
const findings = (limits: LimitOverrides) => analyse(made, { limits }).findings;
const told = "changed for this job";

describe("a limit changed for the job", () => {
  test("is named under every finding, with the value as delivered", () => {
    for (const { dependsOn } of findings({ switchLevel: 0.5 })) {
      expect(dependsOn.filter((line) => line.includes(told))).toEqual([
        expect.stringContaining("0.5 V (changed for this job, 0.45 as delivered)"),
      ]);
    }
  });

  test("that is a share is read and typed in percent, as the answer reads it", () => {
    for (const { dependsOn } of findings({ busyAmplitude: 0.57 })) {
      expect(dependsOn.filter((line) => line.includes(told))).toEqual([
        expect.stringContaining("share of the front: 57 % (changed for this job, 60 as delivered)"),
      ]);
    }
    for (const name of Object.keys(defaultLimits) as LimitName[]) {
      const { value } = defaultLimits[name];
      expect(storedLimit(name, shownLimit(name, value).value)).toBe(value);
    }
    expect(storedLimit("busyAmplitude", 57)).toBe(0.57);
  });

  test("unchanged says nothing of a change", () => {
    expect(
      findings({})
        .flatMap(({ dependsOn }) => dependsOn)
        .filter((line) => line.includes(told)),
    ).toEqual([]);
  });

  test.each(["idleSpeed", "cutTime", "warmCoolant", "slowPeriod", "spikeShare", "busyAmplitude"] satisfies LimitName[])(
    "%s is named once",
    (name) => {
      for (const { dependsOn } of findings({ [name]: defaultLimits[name].value * 1.5 })) {
        expect(dependsOn.filter((line) => line.includes(told))).toHaveLength(1);
      }
    },
  );

  test("that only comparisons use is not", () => {
    expect(
      findings({ fairFlow: 3 })
        .flatMap(({ dependsOn }) => dependsOn)
        .join(),
    ).not.toContain(told);
  });

  test("is left out where it is no number", () => {
    expect(limitsInForce({ switchLevel: NaN }).switchLevel).toBe(0.45);
  });
});
