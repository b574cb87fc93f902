// A folder for a warranty desk: an index page that opens anywhere, the sheets, tables as CSV, monitor results, and the raw
// recordings with their hashes. Personal data are named only where the sheet names them.

import { csvCell } from "../../capture/writing/write-csv.ts";
import type { Finding } from "../../exhaust/terms/analysis.ts";
import { evidenceOf, intakeOf, type Moment } from "../../job/edits/paper-edits.ts";
import { checklist } from "../../job/evidence/checklist.ts";
import { monitorsInReplies } from "../../job/monitors/monitor-replies.ts";
import { parameterIds, parameterOf } from "../../job/parameters/parameters.ts";
import { type Proof, proofInWords } from "../../job/proof/proof.ts";
import type { CaptureRecord, ExhibitRecord, Job } from "../../job/record/job.ts";
import { ruledOutTable } from "../../job/ruled-out/ruled-out.ts";
import { dateText } from "../../signal/written/date-text.ts";
import type { CustomerSheet } from "../customer/customer-sheet.ts";

export interface HandOverFacts {
  readonly job: Job;
  readonly findings: readonly Finding[];
  readonly sheet: CustomerSheet;
  readonly proof: Proof;
  /** Latest revision of each exhibit. */
  readonly exhibits: readonly ExhibitRecord[];
  /** Recordings that are in the folder; the others are named as not at hand. */
  readonly atHand: ReadonlySet<string>;
  readonly now: string;
}

/** File name in the folder -> text. */
export function handOverTexts(facts: HandOverFacts): Readonly<Record<string, string>> {
  return {
    "index.html": indexPage(facts),
    "other-causes.csv": causesTable(facts),
    "monitor-results.csv": monitorTable(facts.job),
    "freeze-frame.csv": frameTable(facts.job),
    "codes.csv": codesTable(facts.job),
    "recordings.csv": recordingTable(facts),
  };
}

/** Where a recording lies in the folder. */
export const recordingPath = ({ id, fileName }: CaptureRecord): string =>
  `recordings/${id.slice(0, 12)}-${fileName.replace(/^.*[/\\]/, "") || "recording"}`;

const moments: readonly (readonly [Moment, string])[] = [
  ["before", "before clearing"],
  ["after", "after the repair"],
];

function causesTable({ job, findings }: HandOverFacts): string {
  const rows = ruledOutTable(findings, job.ruledOut ?? []);
  return csv(
    ["cause", "result", "from", "value", "by", "when", "photos"],
    rows.map(({ name, result, from, value, by, at, photos }) => [name, result, from, value, by, at, photos.join(" ")]),
  );
}

function monitorTable(job: Job): string {
  const rows = moments.flatMap(([moment, when]) =>
    monitorsInReplies(evidenceOf(job, moment).monitorReplies).results.map((one) => [
      ...[when, one.monitor, one.test, `${one.value}`, text(one.low), text(one.high), one.unit],
      ...[text(one.margin), one.outcome, one.bytes, one.note],
    ]),
  );
  const head = ["read", "monitor", "test", "value", "lowest", "highest", "unit", "margin %", "result", "bytes", "note"];
  return csv(head, rows);
}

function frameTable(job: Job): string {
  const { frame, status } = evidenceOf(job, "before");
  const lines = (what: string, values: typeof status) =>
    parameterIds.flatMap((id) => {
      const value = values[id];
      return value === undefined ? [] : [[what, parameterOf(id).name, `${value}`, parameterOf(id).unit]];
    });
  const rows = [...lines(`freeze frame ${frame?.code ?? ""}`.trim(), frame?.values ?? {}), ...lines("status", status)];
  return csv(["of", "quantity", "value", "unit"], rows);
}

function codesTable(job: Job): string {
  const rows = moments.flatMap(([moment, when]) =>
    evidenceOf(job, moment).codes.map(({ code, states }) => [when, code, states.join(" ")]),
  );
  return csv(["read", "code", "states"], rows);
}

function recordingTable({ job, atHand }: HandOverFacts): string {
  const rows = job.captures.map((one) => [
    ...[one.fileName, one.sha256, `${one.size}`, one.stage ?? "not said", one.running ?? "not said"],
    ...[one.recordedAt ?? "", atHand.has(one.id) ? recordingPath(one) : "not at hand"],
  ]);
  return csv(["file", "SHA-256", "bytes", "stage", "running", "recorded", "here"], rows);
}

const text = (value: number | null): string => (value === null ? "" : `${value}`);

/** RFC 4180; numbers below zero stay as they are. */
function csv(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const cell = (value: string) => (/^-[\d.]/.test(value) ? value : csvCell(value));
  return `${[head, ...rows].map((row) => row.map(cell).join(",")).join("\r\n")}\r\n`;
}

function indexPage({ job, sheet, proof, exhibits, atHand, now }: HandOverFacts): string {
  const { description, odometer, codes } = job.vehicle;
  const intake = intakeOf(job);
  const about = [
    ["Vehicle", [description, intake.engineSize, odometer].filter(Boolean).join(", ")],
    ["Codes", codes],
    ["Complaint", intake.complaint],
    ["Recent work", intake.recentWork],
    ["Technician", intake.technician],
    ["Made", dateText(now)],
  ].filter(([, value]) => value !== "");
  const files = [
    ["other-causes.csv", "Other causes, each with result, by whom and when"],
    ["codes.csv", "Codes, before clearing and after the repair"],
    ["freeze-frame.csv", "Freeze frame, distances and times"],
    ["monitor-results.csv", "Results of the car's own monitors, with their bytes"],
    ["recordings.csv", "Recordings with their SHA-256"],
    ["job.json", "The whole record of the job"],
  ] as const;
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>${html(job.name)}</title>
<style>body{font:16px/1.4 sans-serif;max-width:62rem;margin:2rem auto;padding:0 1rem;color:#1d2329}th{text-align:left;padding-right:1rem;vertical-align:top}img{max-width:100%}h2{margin-top:2rem}</style>
</head><body>
<h1>${html(job.name)}</h1>
<table>${about.map(([name, value]) => `<tr><th>${html(name!)}</th><td>${html(value!)}</td></tr>`).join("")}</table>
<h2>What was found</h2>
<p><b>${html(sheet.answer)}</b></p><p>${html(sheet.sure)}</p>
${sheet.sections.map(({ heading, lines }) => `<h3>${html(heading)}</h3><ul>${lines.map((line) => `<li>${html(line)}</li>`).join("")}</ul>`).join("\n")}
<h2>Repair</h2>
<p>${html(proofInWords(proof))}</p>
<ul>${proof.parts.map(({ name, ok, says }) => `<li>${ok ? "there" : "missing"}: ${html(name)}. ${html(says)}</li>`).join("")}</ul>
<h2>Evidence before clearing</h2>
<ul>${checklist(evidenceOf(job, "before"))
    .map(({ name, state }) => `<li>${html(name)}: ${state === "declined" ? "not to be had" : state}</li>`)
    .join("")}</ul>
<h2>Tables</h2>
<ul>${files.map(([name, what]) => `<li><a href="${name}">${name}</a>: ${html(what)}</li>`).join("")}</ul>
<h2>Recordings</h2>
<ul>${job.captures.map((one) => recordingLine(one, atHand)).join("")}</ul>
<h2>Exhibits</h2>
${exhibits.map(({ png, headline }) => `<figure><img src="exhibits/${encodeURIComponent(png)}" alt="${html(headline)}"></figure>`).join("\n")}
</body></html>
`;
}

function recordingLine(one: CaptureRecord, atHand: ReadonlySet<string>): string {
  const path = recordingPath(one).split("/").map(encodeURIComponent).join("/");
  const name = atHand.has(one.id)
    ? `<a href="${path}">${html(one.fileName)}</a>`
    : `${html(one.fileName)} (not at hand)`;
  return `<li>${name}, ${one.stage ?? "stage not said"}, SHA-256 ${html(one.sha256)}</li>`;
}

const html = (value: string): string =>
  value.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
