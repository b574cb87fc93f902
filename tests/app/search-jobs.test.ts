// Jobs are found again by whatever is remembered of them.

import { afterEach, expect, test } from "vitest";
import { holdsAll } from "../../src/app/job/search.ts";
import { changeJob, changeVehicle, newJob } from "../../src/job/edits/make.ts";
import { changeIntake } from "../../src/job/edits/paper-edits.ts";
import { lineOf } from "../../src/job/storage/store.ts";
import { plainWriting, writeAs } from "../../src/signal/written/writing.ts";

afterEach(() => writeAs(plainWriting));

const at = "2026-05-04T10:41:00.000Z";
const job = changeIntake(
  changeVehicle(changeJob(newJob("j1", at, "Lamp again"), at, {}), at, {
    description: "Hatchback 1.6",
    plate: "AB 123",
    codes: "P0420",
    customer: "A. Customer",
  }),
  at,
  { complaint: "The lamp came on in the hills", date: "2026-03-27" },
);

test.each([
  "lamp",
  "HATCHBACK",
  "ab 123",
  "p0420",
  "customer",
  "hills",
  "2026-05-04",
  "4 May",
  "2026-03-27",
  "27 Mar",
  "hills p0420",
  "4 may 2026",
  "May 4, 2026",
  "march 27 hatchback",
  "March 2026",
  "2026-5",
  "27",
  "",
])("%s finds it", (wanted) => expect(holdsAll(lineOf(job), wanted)).toBe(true));

// Each number and month stands somewhere in the job, but not as that day: 4 May, 27 Mar, 10:41, 1.6, P0420.
test.each(["valleys", "hills valleys", "2025", "Mar 4", "Mar 2", "7 Mar", "27 May", "may 2025", "2026-05-0", "202"])(
  "%s does not",
  (wanted) => expect(holdsAll(lineOf(job), wanted)).toBe(false),
);

test("a date is found as it is shown", () => {
  writeAs({ ...plainWriting, dates: "04.05.2026" });
  expect(holdsAll(lineOf(job), "04.05.2026")).toBe(true);
  expect(holdsAll(lineOf(job), "27.03.2026")).toBe(true);
  expect(holdsAll(lineOf(job), "27.3.")).toBe(true);
  expect(holdsAll(lineOf(job), "7.3.")).toBe(false);
});
