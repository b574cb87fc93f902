// The answer for people: a few short tables in plain text.

import type { Capture } from "../capture/model/capture.ts";
import { cutsInWords } from "../exhaust/lift-offs/cuts-in.ts";
import type { Activity, Analysis, LiftOff, Sensor } from "../exhaust/terms/analysis.ts";
import { asRead, inPercent, inWords, quantity, spanInWords } from "../exhaust/terms/words.ts";
import type { Reading } from "../signal/numbers/reading.ts";
import { answerOf } from "./answer.ts";

export function table(capture: Capture, analysis: Analysis, others: readonly Analysis[] = []): string {
  const sections = [
    recording(capture, analysis, others),
    findings(analysis),
    ...others.map((other) => [`Bank ${other.bank}`, ...findings(other), ...storeLine(other)]),
    storeLine(analysis),
    sensors(analysis),
    activity(wholeTitle(analysis), analysis.whole),
    stretches(analysis),
    liftOffs(analysis),
  ];
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join("\n"))
    .join("\n\n");
}

function storeLine({ store, storePerLitre }: Analysis): string[] {
  if (!store) return [];
  const each = storePerLitre ? `; for each litre of engine ${inWords(storePerLitre)}` : "";
  return [`Oxygen that the catalyst can hold: ${inWords(store)}${each}${store.because ? `. ${store.because}` : ""}`];
}

function recording(capture: Capture, analysis: Analysis, others: readonly Analysis[]): string[] {
  const { duration, channels, remarks, format, name } = answerOf(capture, analysis, others).capture;
  return [
    `${name}: ${format}, ${inWords(duration)}, bank ${analysis.bank}`,
    ...columns(
      channels.map((c) => [`  ${c.name}`, c.role, `${c.samples} samples`, c.polled ? "polled" : "", inWords(c.rate)]),
    ),
    ...remarks.map((text) => `  Note: ${text}`),
  ];
}

/** A recording is not accused: it is fit to judge by, or too thin. */
const recordingVerdicts = {
  "points-to": "TOO THIN",
  "points-away": "fit to judge",
  "cannot-say": "fit in part",
} as const;
const verdicts = { "points-to": "POINTS TO", "points-away": "points away", "cannot-say": "cannot say" } as const;

function findings({ findings }: Analysis): string[] {
  if (findings.length === 0) return [];
  return [
    "Findings",
    ...findings.flatMap(({ id, verdict, statement, next }) => [
      `  ${id}: ${(id === "recording" ? recordingVerdicts : verdicts)[verdict]}. ${statement}`,
      ...(verdict === "points-away" && id !== "recording" ? [] : next.map((text) => `    next: ${text}`)),
    ]),
  ];
}

const sensorRows: readonly (readonly [keyof Sensor, string])[] = [
  ["frequency", "switching frequency"],
  ["amplitude", "swing"],
  ["minimum", "minimum"],
  ["maximum", "maximum"],
  ["mean", "mean"],
  ["richShare", "rich share"],
  ["crossings", "crossings of 0.45 V"],
  ["crossingsPer10s", "crossings per 10 s"],
  ["richToLean", "rich to lean, 0.6 to 0.3 V"],
  ["leanToRich", "lean to rich, 0.3 to 0.6 V"],
];

function sensors({ sensors: { front, rear } }: Analysis): string[] {
  const cell = (sensor: Sensor | null, key: keyof Sensor) => (sensor ? inWords(sensor[key]) : "-");
  return [
    "Sensors, whole recording",
    ...columns([
      ["", "front", "rear"],
      ...sensorRows.map(([key, label]) => [`  ${label}`, cell(front, key), cell(rear, key)]),
    ]),
  ];
}

const activityRows: readonly (readonly [keyof Activity, string])[] = [
  ["crossingRatio", "crossings"],
  ["amplitudeRatio", "swing"],
  ["lengthRatio", "movement, all in all"],
  ["ownLevelRatio", "crossings of its own middle"],
  ["lag", "rear later by"],
];

/** Fuel cuts are part of the whole, and both sensors go lean in them: said where the ratios stand. */
const wholeTitle = ({ wholeCuts }: Analysis): string =>
  ["Rear over front, whole recording", ...(wholeCuts.count > 0 ? [cutsInWords(wholeCuts)] : [])].join(": ");

function activity(title: string, measured: Activity | null): string[] {
  if (!measured) return [];
  return [title, ...columns(activityRows.map(([key, label]) => [`  ${label}`, inWords(asRead(key, measured[key]))]))];
}

function stretches({ stretches }: Analysis): string[] {
  if (stretches.length === 0) return [];
  const ratio = (reading: Reading | undefined) => (reading ? inWords(inPercent(reading)) : "");
  return [
    "Stretches",
    ...columns([
      ["", "", "crossings", "swing", ""],
      ...stretches.map((s) => [
        `  ${s.kind}`,
        spanInWords(s),
        ratio(s.activity?.crossingRatio),
        ratio(s.activity?.amplitudeRatio),
        s.fit ? "fit" : "",
      ]),
    ]),
  ];
}

function liftOffs({ liftOffs, liftOff }: Analysis): string[] {
  if (liftOffs.length === 0) return ["Lift-offs: none found."];
  const row = (one: LiftOff) => [
    `  ${quantity(one.at, "s")}`,
    inWords(one.delay),
    inWords(one.storedOxygen),
    `cut ${one.fuelCut}`,
    one.setAside ? `does not count: ${one.rejected}` : "",
  ];
  return [
    "Lift-offs",
    ...columns([["  at", "delay", "oxygen passed", "", ""], ...liftOffs.map(row)]),
    ...(liftOff ? columns([["  all", inWords(liftOff.delay), inWords(liftOff.storedOxygen)]]) : []),
  ];
}

/** Pads each column to its widest cell. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = rows.reduce<number[]>((most, row) => row.map((cell, c) => Math.max(cell.length, most[c] ?? 0)), []);
  return rows.map((row) =>
    row
      .map((cell, c) => cell.padEnd(widths[c] ?? 0))
      .join("  ")
      .trimEnd(),
  );
}
