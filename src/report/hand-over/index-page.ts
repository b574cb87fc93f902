// The folder's first page: what was found, by what it is shown, and a link to everything that lies beside it.

import { evidenceOf, intakeOf } from "../../job/edits/paper-edits.ts";
import { checklist } from "../../job/evidence/checklist.ts";
import { monitorsInReplies } from "../../job/monitors/monitor-replies.ts";
import { saidOf } from "../../job/monitors/result-words.ts";
import { proofInWords } from "../../job/proof/proof.ts";
import type { CaptureRecord, Job } from "../../job/record/job.ts";
import { photoNames } from "../../job/record/photo-names.ts";
import { causeWords } from "../../job/ruled-out/ruled-out.ts";
import { dateText } from "../../signal/written/date-text.ts";
import { xmlText } from "../paper/svg.ts";
import type { HandOverFacts } from "./facts.ts";
import { about, list, page, table } from "./page.ts";
import { exhibitPath, linkTo, originalPath, photoPath, recordingPath } from "./paths.ts";
import { sheetWords } from "./sheet-page.ts";

const files = [
  ["customer-sheet.html", "The customer's sheet, as given away last, on one page"],
  ["readings.csv", "Readings of the recording judged, with their bounds"],
  ["before-and-after.csv", "Readings before and after the repair, where two recordings were compared"],
  ["other-causes.csv", "Other causes, each with result, by whom and when"],
  ["codes.csv", "Codes, before clearing and after the repair"],
  ["freeze-frame.csv", "Freeze frame, distances and times"],
  ["monitor-results.csv", "Results of the car's own monitors, with their bytes"],
  ["recordings.csv", "Recordings with their SHA-256"],
  [
    "job.json",
    "The record of the job, the fields for plate, VIN and customer empty where the sheet does not show them",
  ],
] as const;

/** For whoever hands the folder over, and whoever gets it. */
export const notLookedInto =
  "Names of the job and of files, free text, pasted replies, recordings, exhibits and photos are as they were given. They may tell the plate, the VIN or the owner, and a photo as it was taken the place where it was taken: look through them before the folder leaves the workshop.";

export function indexPage(facts: HandOverFacts): string {
  const { job, proof, now, atHand } = facts;
  const { description, odometer, codes } = job.vehicle;
  const intake = intakeOf(job);
  const evidence = evidenceOf(job, "before");
  const top = about([
    ["Vehicle", [description, intake.engineSize, odometer].filter(Boolean).join(", ")],
    ["Codes", codes],
    ["Complaint", intake.complaint],
    ["Recent work", intake.recentWork],
    ["Calibration ID", evidence.calibration],
    ["Technician", intake.technician],
    ["Made", dateText(now)],
  ]);
  const saved = checklist(evidence).map(
    ({ name, state }) => `${xmlText(name)}: ${state === "declined" ? "not to be had" : state}`,
  );
  const parts = proof.parts.map(
    ({ name, ok, says }) => `${ok ? "there" : "missing"}: ${xmlText(name)}. ${xmlText(says)}`,
  );
  return page(
    job.name,
    [
      `<h1>${xmlText(job.name)}</h1>${top}`,
      `<h2>What was found</h2>${sheetWords(facts)}`,
      `<h2>Repair</h2><p>${xmlText(proofInWords(proof))}</p>${list(parts)}`,
      `<h2>Evidence before clearing</h2>${list(saved)}${monitors(job)}`,
      `<h2>Files</h2>${list(files.map(([name, what]) => `<a href="${name}">${name}</a>: ${xmlText(what)}`))}<p>${xmlText(notLookedInto)}</p>`,
      `<h2>Recordings</h2>${list(job.captures.map((one) => recordingLine(one, atHand)))}`,
      photos(job),
      `<h2>Exhibits</h2>${exhibits(facts)}`,
    ].join("\n"),
  );
}

function monitors(job: Job): string {
  const { results } = monitorsInReplies(evidenceOf(job, "before").monitorReplies);
  if (results.length === 0) return "";
  const rows = results.map((result) => {
    const { monitor, test, value, low, high, unit, outcome } = result;
    const limit = (one: number | null) => (one === null ? "–" : saidOf(result, one));
    return [
      ...[monitor, test, `${saidOf(result, value)}${unit === "raw" ? " raw" : ""}`, limit(low), limit(high)],
      outcome === "not-run" ? "has not run" : outcome,
    ];
  });
  return `<h3>Monitor results</h3>${table(["monitor", "test", "value", "lowest", "highest", "result"], rows)}`;
}

function recordingLine(one: CaptureRecord, atHand: ReadonlySet<string>): string {
  const name = atHand.has(one.id)
    ? `<a href="${linkTo(recordingPath(one))}">${xmlText(one.fileName)}</a>`
    : `${xmlText(one.fileName)} (not at hand)`;
  return `${name}, ${one.stage ?? "stage not said"}, SHA-256 <code>${xmlText(one.sha256)}</code>`;
}

/** Each photo with the cause it belongs to; the picture leads to the file as it was taken. */
function photos({ photos: all = [], ruledOut = [] }: Job): string {
  if (all.length === 0) return "";
  const figures = all.map((photo, at) => {
    const { scaled } = photoNames(photo.id);
    const causes = ruledOut.filter((row) => row.photos.includes(scaled)).map(({ cause }) => causeWords[cause].name);
    const of = causes.length > 0 ? causes.join(", ") : "belongs to no cause any more";
    const picture = `<img src="${linkTo(photoPath(scaled, all))}" alt="${xmlText(of)}">`;
    return `<figure><a href="${linkTo(originalPath(at, photo))}">${picture}</a><figcaption>${xmlText(of)}<br>SHA-256 <code>${xmlText(photo.id)}</code></figcaption></figure>`;
  });
  return `<h2>Photos</h2><div class="photos">${figures.join("")}</div>`;
}

const exhibits = ({ exhibits: all }: HandOverFacts): string =>
  all.length === 0
    ? "<p>None was made.</p>"
    : all
        .map(({ headline }, at) => {
          const [png, svg] = [exhibitPath(at + 1, "png"), exhibitPath(at + 1, "svg")].map(linkTo);
          return `<figure><a href="${svg}"><img src="${png}" alt="${xmlText(headline)}"></a><figcaption>Sheet ${at + 1}: ${xmlText(headline)}</figcaption></figure>`;
        })
        .join("\n");
