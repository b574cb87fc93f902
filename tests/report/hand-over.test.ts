import Papa from "papaparse";
import { expect, test } from "vitest";
import type { Comparison } from "../../src/exhaust/comparing/comparison.ts";
import type { Analysis } from "../../src/exhaust/terms/analysis.ts";
import { changeVehicle, keepCapture, newJob } from "../../src/job/edits/make.ts";
import {
  changeEvidence,
  changeHandRow,
  changeIntake,
  emptyDraft,
  keepPhoto,
  noRepair,
} from "../../src/job/edits/paper-edits.ts";
import { noEvidence } from "../../src/job/evidence/evidence.ts";
import { proofOf } from "../../src/job/proof/proof.ts";
import { handRow } from "../../src/job/ruled-out/ruled-out.ts";
import { customerSheet } from "../../src/report/customer/customer-sheet.ts";
import { handOverTexts } from "../../src/report/hand-over/hand-over.ts";
import { notLookedInto } from "../../src/report/hand-over/index-page.ts";
import { openRecord } from "../../src/report/hand-over/open-record.ts";
import { originalPath, photoPath } from "../../src/report/hand-over/paths.ts";
import { atMost, measured } from "../../src/signal/numbers/reading.ts";
import { captureRecord } from "../job/samples.ts";

const at = "2026-05-04T10:00:00.000Z";
const begun = changeIntake(newJob("j1", at, 'Job <1> & "more"'), at, { complaint: '=lamp, "on"\nsince May' });
const withCause = changeHandRow(begun, at, {
  ...handRow([], "plugs"),
  ...{ result: "in-order", value: '=0.8 mm, "new"', by: "T. Example" },
});
const job = changeEvidence(keepCapture(withCause, at, captureRecord("a1")), at, "before", {
  codes: [{ code: "P0420", states: ["stored", "pending"] }],
  monitorReplies: "46 21 80 20 01 20 00 00 01 00",
  frame: { code: "P0420", values: { engineSpeed: 2000 } },
});
const facts = { job, findings: [], liftOff: null, repair: null, judged: null, now: "2026-05-04T10:00" };
const textsOf = (of: typeof job) =>
  handOverTexts({
    ...{ job: of, analysis: null, comparison: null, exhibits: [], now: "2026-05-04T10:00", atHand: new Set(["a1"]) },
    sheet: customerSheet({ ...facts, job: of }),
    proof: proofOf({ repair: noRepair, captures: [], comparison: null, before: noEvidence, after: noEvidence }),
  });
const texts = textsOf(job);
test("text that begins as a number below zero is guarded all the same", () => {
  const { "recordings.csv": said } = textsOf(
    keepCapture(begun, at, { ...captureRecord("a1"), fileName: "-1+2=3.csv" }),
  );
  expect(Papa.parse<string[]>(said!).data[1]![0]).toBe("'-1+2=3.csv");
});

/** Read back by an independent library. */
const table = (name: string) => Papa.parse<string[]>(texts[name]!.trim()).data;

test("the tables read back cell by cell, and no cell is taken for a formula", () => {
  const plugs = table("other-causes.csv").find(([cause]) => cause === "Spark plugs")!;
  expect(plugs.slice(1, 5)).toEqual(["in-order", "hand", '\'=0.8 mm, "new"', "T. Example"]);
  expect(table("codes.csv")[1]).toEqual(["before clearing", "P0420", "stored pending"]);
  expect(table("freeze-frame.csv")[1]).toEqual(["freeze frame P0420", "Engine speed", "2000", "1/min"]);
  // 0x0120 at 1/256 a bit is 1.125, 12.5 % beyond 1.
  expect(table("monitor-results.csv")[1]!.slice(3, 9)).toEqual(["1.125", "", "1", "ratio", "-12.5", "failed"]);
  expect(table("recordings.csv")[1]).toEqual([
    "a1.csv",
    "a1",
    "100",
    "not said",
    "not said",
    "",
    "recordings/a1-a1.csv",
  ]);
});

test("the index names everything that lies there, and markup in a name stays text", () => {
  const page = texts["index.html"]!;
  for (const name of Object.keys(texts).filter((one) => one !== "index.html")) expect(page).toContain(`href="${name}"`);
  expect(page).toContain("<h1>Job &lt;1&gt; &amp; &quot;more&quot;</h1>");
  expect(page).toContain("not proved yet. Missing: repair stated");
  expect(page).not.toMatch(/<script|http:|https:/);
});

test("a character that no page may hold does not reach one", () => {
  const odd = textsOf({ ...job, name: "Lamp \u0001 'on'" });
  expect(odd["index.html"]).toContain("<h1>Lamp \ufffd &#39;on&#39;</h1>");
});

test("photos lie there under a name with an ending, each beside its cause and its hash", () => {
  const id = "ab".repeat(32);
  const photo = { id, name: "IMG 1.HEIC", type: "image/heic", size: 9 };
  const pictured = changeHandRow(keepPhoto(job, at, photo), at, {
    ...handRow([], "leak-between"),
    ...{ result: "in-order", photos: [`photo-${id}.jpg`] },
  });
  const [index, sheet] = ["index.html", "customer-sheet.html"].map((name) => textsOf(pictured)[name]!);
  expect(originalPath(0, photo)).toBe("photos/photo-1-as-taken.heic");
  for (const page of [index, sheet]) expect(page).toContain(`src="${photoPath(`photo-${id}.jpg`, [photo])}"`);
  expect(index).toContain(originalPath(0, photo));
  expect(index).toMatch(new RegExp(`Leak between the sensors<br>SHA-256 <code>${id}`));
});

test("who owns the car is not told where the sheet does not tell it", () => {
  const named = changeVehicle(job, at, { plate: "AB 123", vin: "1M8GDM9AXKP042788", customer: "C. Example" });
  expect(openRecord(named).vehicle).toMatchObject({ plate: "", vin: "", customer: "" });
  const sheet = { ...emptyDraft, ticks: { plate: false, vin: true, customer: false } };
  expect(openRecord({ ...named, sheet }).vehicle).toMatchObject({ plate: "", vin: "1M8GDM9AXKP042788" });
  expect(Object.values(textsOf(named)).join("")).not.toMatch(/AB 123|C\. Example|1M8GDM9AXKP042788/);
});

test("sheets given away before tell no more of the owner than the sheet now does", () => {
  const named = changeVehicle(job, at, { plate: "AB 123", vin: "1M8GDM9AXKP042788", customer: "C. Example" });
  const ticked = { ...named, sheet: { ...emptyDraft, ticks: { plate: true, vin: true, customer: true } } };
  const given = { ...customerSheet({ ...facts, job: ticked }), id: "s1", revision: 1, madeAt: at };
  expect(JSON.stringify(given)).toMatch(/AB 123.*1M8GDM9AXKP042788.*C\. Example/);
  const sheet = { ...emptyDraft, ticks: { plate: false, vin: true, customer: false } };
  const open = openRecord({ ...named, sheets: [given], sheet });
  expect(JSON.stringify(open)).not.toMatch(/AB 123|C\. Example/);
  expect(open.sheets![0]!.about).toContainEqual(["VIN", "1M8GDM9AXKP042788"]);
  expect(open.sheets![0]!.about).toContainEqual(["Job", job.name]);
});

test("the index says what was not looked into, where the owner may be named still", () => {
  const page = texts["index.html"]!;
  expect(page).toContain("the fields for plate, VIN and customer empty where the sheet does not show them");
  expect(page).toContain(notLookedInto);
  for (const may of ["Names of the job", "free text", "pasted replies", "recordings", "place"])
    expect(notLookedInto).toContain(may);
});

test("readings stand there with their bounds, and both values of what was compared", () => {
  const delay = measured(1.07, [1.05, 1.1], "s");
  const liftOff = { delay, storedOxygen: atMost(2.2, "g"), richAgain: delay, spread: null, more: 0 };
  const event = { id: 1, at: 160, delay, storedOxygen: delay };
  const analysis = {
    ...{ store: null, whole: null, sensors: { front: { amplitude: measured(0.8, [0.7, 0.9], "V") }, rear: null } },
    ...{ stretches: [], findings: [], liftOff, liftOffs: [event] },
  } as unknown as Analysis;
  const difference = { label: "Delay", suspect: delay, reference: delay, ratio: delay, told: "longer" };
  const comparison = { differences: [difference] } as unknown as Comparison;
  const all = handOverTexts({
    ...{ job, analysis, comparison, exhibits: [], now: facts.now, atHand: new Set<string>() },
    sheet: customerSheet(facts),
    proof: proofOf({ repair: noRepair, captures: [], comparison: null, before: noEvidence, after: noEvidence }),
  });
  const rows = Papa.parse<string[]>(all["readings.csv"]!.trim()).data;
  expect(rows[1]).toEqual(["front: amplitude", "", "", "0.8", "0.7", "0.9", "V", "measured", ""]);
  expect(rows).toContainEqual(["lift-off 1: delay", "160", "160", "1.07", "1.05", "1.1", "s", "measured", ""]);
  expect(rows.find(([name]) => name === "over all lift-offs: storedOxygen")!.slice(3, 6)).toEqual(["2.2", "0", "2.2"]);
  expect(Papa.parse<string[]>(all["before-and-after.csv"]!.trim()).data[1]!.slice(0, 7)).toEqual([
    "Delay",
    "1.07",
    "1.05",
    "1.1",
    "1.07",
    "1.05",
    "1.1",
  ]);
});

test("the customer's sheet there is the one given away last, and says which revision it is", () => {
  const given = { ...customerSheet(facts), answer: "As it was told then.", id: "s1", revision: 3, madeAt: at };
  const page = textsOf({ ...job, sheets: [given] })["customer-sheet.html"]!;
  expect(page).toContain("As it was told then.");
  expect(page).toContain("revision 3, 4 May 2026");
  expect(texts["customer-sheet.html"]).toContain('<p class="mark">draft</p>');
});

test("a monitor's value and its limits are told in one unit", () => {
  // 0x0046 of at most 0x0064 at 1 ms a bit (unit and scaling ID 0x10 of SAE J1979, from a secondary source).
  const timed = changeEvidence(job, at, "before", { monitorReplies: "46 01 05 10 00 46 00 00 00 64" });
  expect(textsOf(timed)["index.html"]).toContain("<td>70\u00a0ms</td><td>–</td><td>100\u00a0ms</td>");
});
