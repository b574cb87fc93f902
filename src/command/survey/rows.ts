// One recording as one row: flat, so that any table program can sort and filter it.

import { basename } from "node:path";
import type { Capture, Role } from "../../capture/model/capture.ts";
import type { Analysis, FindingId } from "../../exhaust/terms/analysis.ts";
import type { Problem } from "../../problem.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { describeTimeBase } from "../../signal/stamps/time-base.ts";
import { durationOf } from "../answer.ts";

export type Cell = string | number | null;
export type Row = Readonly<Record<string, Cell>>;

export interface Measured {
  readonly capture: Capture;
  readonly analysis: Analysis;
}

type ReadingOf = (measured: Measured) => Reading | null | undefined;

/** Readings of the whole recording; the unit stands at the end of the name. Each has its bounds and its grade beside it. */
const readings: Readonly<Record<string, ReadingOf>> = {
  duration_s: ({ capture }) => durationOf(capture),
  front_rate_hz: (measured) => rateOf(measured, "front-o2"),
  rear_rate_hz: (measured) => rateOf(measured, "rear-o2"),
  front_frequency_hz: ({ analysis }) => analysis.sensors.front?.frequency,
  front_amplitude_v: ({ analysis }) => analysis.sensors.front?.amplitude,
  front_rich_share_percent: ({ analysis }) => analysis.sensors.front?.richShare,
  front_rich_to_lean_s: ({ analysis }) => analysis.sensors.front?.richToLean,
  front_lean_to_rich_s: ({ analysis }) => analysis.sensors.front?.leanToRich,
  rear_frequency_hz: ({ analysis }) => analysis.sensors.rear?.frequency,
  rear_amplitude_v: ({ analysis }) => analysis.sensors.rear?.amplitude,
  rear_minimum_v: ({ analysis }) => analysis.sensors.rear?.minimum,
  rear_maximum_v: ({ analysis }) => analysis.sensors.rear?.maximum,
  crossing_ratio: ({ analysis }) => analysis.whole?.crossingRatio,
  amplitude_ratio: ({ analysis }) => analysis.whole?.amplitudeRatio,
  length_ratio: ({ analysis }) => analysis.whole?.lengthRatio,
  lag_s: ({ analysis }) => analysis.whole?.lag,
  lift_off_delay_s: ({ analysis }) => analysis.liftOff?.delay,
  stored_oxygen_g: ({ analysis }) => analysis.liftOff?.storedOxygen,
};

const findingIds: readonly FindingId[] = [
  "catalyst",
  "front-sensor",
  "rear-sensor",
  "air-leak",
  "mixture",
  "misfire",
  "recording",
];

const aboutFile = ["file", "status", "problem", "reason", "format", "started_at"] as const;
const counts = ["bytes", "bank", "lift_offs", "fuel_cuts", "fit_stretches"] as const;
const verdictName = (id: FindingId): string => `${id.replace("-", "_")}_verdict`;
const parts = ["", "_low", "_high"] as const;

/** Every column in the order of the table, and whether it holds numbers. A row may lack any of them. */
export const columns: readonly { readonly name: string; readonly isNumber: boolean }[] = [
  ...aboutFile.map((name) => ({ name, isNumber: false })),
  ...counts.map((name) => ({ name, isNumber: true })),
  ...findingIds.map((id) => ({ name: verdictName(id), isNumber: false })),
  { name: "catalyst_statement", isNumber: false },
  ...Object.keys(readings).flatMap((name) => [
    ...parts.map((part) => ({ name: `${name}${part}`, isNumber: true })),
    { name: `${name}_grade`, isNumber: false },
  ]),
];

/** @param file  path below the folder. */
export function measuredRow(file: string, bytes: number, measured: Measured): Row {
  const { capture, analysis } = measured;
  return {
    file,
    status: "measured",
    format: capture.format,
    started_at: capture.startedAt === null ? null : String(capture.startedAt),
    bytes,
    bank: analysis.bank,
    lift_offs: analysis.liftOffs.filter(({ rejected }) => rejected === null).length,
    // Ratios of the whole hold these too.
    fuel_cuts: analysis.wholeCuts.count,
    fit_stretches: analysis.stretches.filter(({ fit }) => fit).length,
    ...Object.fromEntries(analysis.findings.map(({ id, verdict }) => [verdictName(id), verdict])),
    catalyst_statement: analysis.findings.find(({ id }) => id === "catalyst")?.statement ?? null,
    ...Object.assign({}, ...Object.entries(readings).map(([name, of]) => cellsOf(name, of(measured)))),
  };
}

/** A file that could not be measured, with the reason. */
export function brokenRow(
  file: string,
  bytes: number,
  { code, what, where }: Omit<Problem, "code" | "remedy"> & { readonly code: string },
): Row {
  return {
    file,
    status: "not read",
    problem: code,
    reason: where && where !== basename(file) ? `${where}: ${what}` : what,
    bytes,
  };
}

function cellsOf(name: string, reading: Reading | null | undefined): Row {
  if (!reading) return {};
  const { value, low, high, grade } = reading;
  return { [name]: value, [`${name}_low`]: low, [`${name}_high`]: high, [`${name}_grade`]: grade };
}

function rateOf({ capture, analysis }: Measured, role: Role): Reading | null {
  const channel = capture.channels.find((one) => one.role === role && one.bank === analysis.bank);
  return channel ? describeTimeBase(channel.series).rate : null;
}
