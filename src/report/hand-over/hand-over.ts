// A folder for a warranty desk: an index page that opens anywhere, the sheets, tables as CSV, monitor results, and the raw
// recordings with their hashes. The fields for plate, VIN and customer are told only where the sheet shows them.

import { csvCell } from "../../capture/writing/write-csv.ts";
import { evidenceOf } from "../../job/edits/paper-edits.ts";
import type { Moment } from "../../job/evidence/evidence.ts";
import { monitorsInReplies } from "../../job/monitors/monitor-replies.ts";
import { parameterIds, parameterOf } from "../../job/parameters/parameters.ts";
import type { Job } from "../../job/record/job.ts";
import { ruledOutTable } from "../../job/ruled-out/ruled-out.ts";
import type { HandOverFacts } from "./facts.ts";
import { indexPage } from "./index-page.ts";
import { photoPath, recordingPath } from "./paths.ts";
import { cell, differenceRows, differencesHead, readingRows, readingsHead } from "./readings-table.ts";
import { sheetPage } from "./sheet-page.ts";

/** File name in the folder -> text. */
export function handOverTexts(facts: HandOverFacts): Readonly<Record<string, string>> {
  return {
    "index.html": indexPage(facts),
    "customer-sheet.html": sheetPage(facts),
    "readings.csv": csv(readingsHead, readingRows(facts.analysis)),
    "before-and-after.csv": csv(differencesHead, differenceRows(facts.comparison)),
    "other-causes.csv": causesTable(facts),
    "monitor-results.csv": monitorTable(facts.job),
    "freeze-frame.csv": frameTable(facts.job),
    "codes.csv": codesTable(facts.job),
    "recordings.csv": recordingTable(facts),
  };
}

const moments: readonly (readonly [Moment, string])[] = [
  ["before", "before clearing"],
  ["after", "after the repair"],
];

function causesTable({ job, analysis }: HandOverFacts): string {
  const rows = ruledOutTable(analysis?.findings ?? [], job.ruledOut ?? []);
  return csv(
    ["cause", "result", "from", "value", "by", "when", "photos"],
    rows.map(({ name, result, from, value, by, at, photos }) => [
      ...[name, result, from, value, by, at],
      photos.map((photo) => photoPath(photo, job.photos ?? [])).join(" "),
    ]),
  );
}

function monitorTable(job: Job): string {
  const rows = moments.flatMap(([moment, when]) =>
    monitorsInReplies(evidenceOf(job, moment).monitorReplies).results.map((one) => [
      ...[when, one.monitor, one.test, cell(one.value), cell(one.low), cell(one.high), one.unit],
      ...[cell(one.margin), one.outcome, one.bytes, one.note],
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
      return value === undefined ? [] : [[what, parameterOf(id).name, cell(value), parameterOf(id).unit]];
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

/** RFC 4180; what is a number below zero and nothing else stays as it is. */
function csv(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const written = (value: string) => (/^-(\d+[.]?\d*|[.]\d+)$/.test(value) ? value : csvCell(value));
  return `${[head, ...rows].map((row) => row.map(written).join(",")).join("\r\n")}\r\n`;
}
