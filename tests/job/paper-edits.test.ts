import { describe, expect, test } from "vitest";
import { isEmpty, keepCapture, newJob } from "../../src/job/edits/make.ts";
import { changeEvidence, changeIntake, keepSheet, labelCapture } from "../../src/job/edits/paper-edits.ts";
import { frameConditionsOf } from "../../src/job/freeze-frame/conditions.ts";
import { at, captureRecord, job } from "./samples.ts";

const sheet = {
  ...{
    id: "s1",
    madeAt: at(5),
    paper: "A4" as const,
    title: "t",
    about: [],
    answer: "",
    sure: "",
    sections: [],
    choices: [],
  },
  ...{ approval: "", picture: null },
} as const;

describe("a job without a recording", () => {
  test("is kept as soon as anything of it is known", () => {
    const fresh = newJob("j2", at(0));
    expect(isEmpty(fresh)).toBe(true);
    expect(isEmpty(changeIntake(fresh, at(1), { complaint: "lamp is on" }))).toBe(false);
  });

  test("carries its codes into the head of the job", () => {
    const codes = [
      { code: "P0420", states: ["stored"] },
      { code: "U0100", states: ["pending"] },
    ] as const;
    const changed = changeEvidence(job, at(2), "before", { codes });
    expect(changed.vehicle.codes).toBe("P0420, U0100");
    expect(changeEvidence(changed, at(3), "after", { codes: [] }).vehicle.codes).toBe("P0420, U0100");
  });
});

test("of all recordings one is before and one is after, as a person said", () => {
  const two = keepCapture(job, at(2), captureRecord("b1"));
  const first = labelCapture(two, at(3), "a1", { stage: "before" });
  const both = labelCapture(first, at(4), "b1", { stage: "before", running: "drive" });
  expect(both.captures.map(({ id, stage, running }) => [id, stage, running])).toEqual([
    ["a1", undefined, undefined],
    ["b1", "before", "drive"],
  ]);
  expect(labelCapture(both, at(5), "b1", { stage: null }).captures[1]).not.toHaveProperty("stage");
});

test("a sheet given away is frozen, the next one is the next revision", () => {
  const twice = keepSheet(keepSheet(job, at(5), sheet), at(6), { ...sheet, id: "s2" });
  expect(twice.sheets!.map(({ id, revision }) => [id, revision])).toEqual([
    ["s1", 1],
    ["s2", 2],
  ]);
});

test("a freeze frame becomes conditions, by bank, without trims", () => {
  const values = { engineSpeed: 2000, shortTrim1: 3, catalystTemperature2: 600, fuelStatus1: 2, fuelStatus2: 0 };
  expect(frameConditionsOf({ code: "P0420", values }, 1)).toEqual({ "engine-speed": 2000, "fuel-status": 2 });
  expect(frameConditionsOf({ code: "P0420", values }, 2)).toEqual({ "engine-speed": 2000, "catalyst-temp": 600 });
});
