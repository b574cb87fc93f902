// Other causes, one row each: what the recording tells, what was found by hand, by whom and when. "Not done" is shown.

import type { Finding, FindingId } from "../../exhaust/terms/analysis.ts";
import { type HandCause, type HandChecks, handCauses } from "../../exhaust/terms/hand-checks.ts";

/** What a person wrote of one check. */
export interface HandRow {
  readonly cause: HandCause;
  readonly result: "not-done" | "in-order" | "at-fault";
  /** A measured value or what was seen, as typed. */
  readonly value: string;
  readonly by: string;
  /** Local date as typed by the date field, "2026-05-04"; "" where none was. */
  readonly at: string;
  /** Names of kept photos. */
  readonly photos: readonly string[];
}

export interface CauseWords {
  readonly name: string;
  /** In a customer's words, in order and at fault. */
  readonly plain: readonly [inOrder: string, atFault: string];
  readonly how: string;
}

/** Common practice. */
export const causeWords: Readonly<Record<HandCause, CauseWords>> = {
  "leak-ahead": {
    name: "Leak ahead of the front sensor",
    plain: ["The exhaust is tight ahead of the first sensor.", "The exhaust leaks ahead of the first sensor."],
    how: "Smoke or pressure, cold, gas drawn off; listen at the joints.",
  },
  "leak-between": {
    name: "Leak between the sensors",
    plain: ["The exhaust is tight around the converter.", "The exhaust leaks near the converter."],
    how: "Smoke or pressure, from the front sensor to behind the rear one.",
  },
  ignition: {
    name: "Ignition and misfire counters",
    plain: ["The ignition works on all cylinders.", "The ignition misses on a cylinder."],
    how: "Counters of each cylinder, coils under load.",
  },
  plugs: {
    name: "Spark plugs",
    plain: ["The spark plugs are in order.", "The spark plugs are worn or fouled."],
    how: "Gap, wear, oil or soot, all of them.",
  },
  "fuel-pressure": {
    name: "Fuel pressure and injectors",
    plain: ["Fuel pressure is in order.", "Fuel pressure or an injector is not in order."],
    how: "Running, held, and falling off after switching off.",
  },
  "oil-coolant": {
    name: "Oil and coolant use",
    plain: [
      "The engine burns no oil or coolant to speak of.",
      "The engine burns oil or coolant, which harms a converter.",
    ],
    how: "Litres per 1000 km, pressure test, breather.",
  },
  wiring: {
    name: "Wiring and ground of the sensors",
    plain: ["The wires of the sensors are sound.", "A wire of the sensors is faulty."],
    how: "Voltage drop on ground, heater feed, chafing, water in plugs.",
  },
  software: {
    name: "Software and bulletins",
    plain: ["No newer software for the engine is known.", "The maker has newer software for the engine."],
    how: "Calibration ID against the maker's bulletins.",
  },
  warranty: {
    name: "Emission warranty and recalls",
    plain: ["Warranty and recalls were looked up: nothing open.", "A warranty or recall may cover this."],
    how: "In-service date and distance against the maker's terms.",
  },
};

/** The findings that the recording fills in. */
const findingRows: readonly (readonly [FindingId, string])[] = [
  ["front-sensor", "Front sensor"],
  ["rear-sensor", "Rear sensor"],
  ["air-leak", "Air leak, from fuel trims"],
  ["mixture", "Mixture"],
  ["misfire", "Misfire, from the front signal"],
];

export type RowResult = "in-order" | "at-fault" | "cannot-say" | "not-done";

/** A line of the table as it is shown. */
export interface RuledOutRow {
  readonly id: FindingId | HandCause;
  readonly name: string;
  readonly result: RowResult;
  /** "recording" or "hand". */
  readonly from: "recording" | "hand";
  readonly value: string;
  readonly by: string;
  readonly at: string;
  readonly photos: readonly string[];
}

const resultOf = { "points-to": "at-fault", "points-away": "in-order", "cannot-say": "cannot-say" } as const;

/** Findings first, then what was done by hand; all causes are there, done or not. */
export function ruledOutTable(findings: readonly Finding[], hand: readonly HandRow[]): RuledOutRow[] {
  const told = findingRows.map(([id, name]): RuledOutRow => {
    const finding = findings.find((one) => one.id === id);
    const about = { id, name, from: "recording" as const, by: "", at: "", photos: [] };
    return finding
      ? { ...about, result: resultOf[finding.verdict], value: finding.statement }
      : { ...about, result: "not-done", value: "" };
  });
  return [...told, ...handCauses.map((cause) => ({ ...rowOf(hand, cause), id: cause, name: causeWords[cause].name }))];
}

function rowOf(hand: readonly HandRow[], cause: HandCause): Omit<RuledOutRow, "id" | "name"> {
  const { result, value, by, at, photos } = handRow(hand, cause);
  return { from: "hand", result, value, by, at, photos };
}

export const handRow = (hand: readonly HandRow[], cause: HandCause): HandRow =>
  hand.find((one) => one.cause === cause) ?? { cause, result: "not-done", value: "", by: "", at: "", photos: [] };

/** What of it findings listen to. */
export function handChecksOf(hand: readonly HandRow[]): HandChecks {
  return Object.fromEntries(
    hand.flatMap(({ cause, result }) => (result === "not-done" ? [] : [[cause, result] as const])),
  );
}
