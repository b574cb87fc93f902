// Whether two recordings may be compared: judged before any ratio is told.

import { measured, type Reading, type Unit } from "../../signal/numbers/reading.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import { describeLimit, type LimitName, type Limits } from "../terms/limits.ts";
import type { Comparable, Concern, Fairness, RecordedSensor } from "./comparison.ts";

export interface FairnessJudged {
  readonly fair: readonly Fairness[];
  readonly notKnown: readonly string[];
  /** What does not match: readings that rest on it are not told apart. */
  readonly against: ReadonlyMap<Concern, string>;
}

interface Judged {
  readonly concern: Concern;
  readonly fair?: Omit<Fairness, "concern">;
  readonly unknown?: string;
}

export function judgeFairness(suspect: Comparable, reference: Comparable, limits: Limits): FairnessJudged {
  const judged = [
    ...liftOffConditions(suspect, reference, limits),
    ...temperatures(suspect, reference, limits),
    ...sensors(suspect, reference, limits),
    ...stretchKinds(suspect, reference, limits),
  ];
  const against = new Map<Concern, string>();
  for (const { concern, fair } of judged)
    if (fair && !fair.ok && !against.has(concern)) against.set(concern, fair.what);
  return {
    fair: judged.flatMap(({ fair, concern }) => (fair ? [{ ...fair, concern }] : [])),
    notKnown: judged.flatMap(({ unknown }) => (unknown ? [unknown] : [])),
    against,
  };
}

function liftOffConditions(suspect: Comparable, reference: Comparable, limits: Limits): Judged[] {
  if (suspect.liftOffs.length === 0 || reference.liftOffs.length === 0) return [];
  const of = (side: Comparable, key: "airFlow" | "engineSpeed", unit: Unit) =>
    rangeOf(
      side.liftOffs.map((event) => event[key]),
      unit,
    );
  return [
    withinFactor(
      "lift-off",
      "air flow in the fuel cut",
      [of(suspect, "airFlow", "g/s"), of(reference, "airFlow", "g/s")],
      "fairFlow",
      limits,
    ),
    withinFactor(
      "lift-off",
      "engine speed at the lift-off",
      [of(suspect, "engineSpeed", "1/min"), of(reference, "engineSpeed", "1/min")],
      "fairSpeed",
      limits,
    ),
  ];
}

/** Middle of some numbers with the least and the greatest; null where none is known. */
function rangeOf(values: readonly (number | null)[], unit: Unit): Reading | null {
  const known = values.filter((value) => value !== null);
  if (known.length === 0) return null;
  return measured(medianOfNumbers(known), [Math.min(...known), Math.max(...known)], unit, { count: known.length });
}

type Two = readonly [suspect: Reading | null, reference: Reading | null];

function withinFactor(
  concern: Concern,
  what: string,
  [suspect, reference]: Two,
  name: LimitName,
  limits: Limits,
): Judged {
  if (!suspect || !reference) return { concern, unknown: `${capital(what)} ${missingIn(suspect, reference)}.` };
  const factor = Math.max(suspect.value! / reference.value!, reference.value! / suspect.value!);
  return { concern, fair: { what, suspect, reference, ok: factor <= limits[name], says: describeLimit(name, limits) } };
}

function withinStep(what: string, [suspect, reference]: Two, name: LimitName, limits: Limits): Judged {
  if (!suspect || !reference) return { concern: "all", unknown: `${capital(what)} ${missingIn(suspect, reference)}.` };
  const ok = Math.abs(suspect.value! - reference.value!) <= limits[name];
  return { concern: "all", fair: { what, suspect, reference, ok, says: describeLimit(name, limits) } };
}

function missingIn(suspect: unknown, reference: unknown): string {
  const where = !suspect && !reference ? "either recording" : `the ${suspect ? "reference" : "suspect"}`;
  return `was not recorded in ${where}: whether it was alike is not known`;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function temperatures(suspect: Comparable, reference: Comparable, limits: Limits): Judged[] {
  return [
    withinStep("coolant temperature", [suspect.coolant, reference.coolant], "fairCoolant", limits),
    withinStep(
      "catalyst temperature",
      [suspect.catalystTemperature, reference.catalystTemperature],
      "fairCatalyst",
      limits,
    ),
  ];
}

function sensors(suspect: Comparable, reference: Comparable, limits: Limits): Judged[] {
  return (["front", "rear"] as const).flatMap((side) => [
    sensorKind(side, suspect[side], reference[side]),
    sampleRate(side, suspect[side], reference[side], limits),
  ]);
}

function sensorKind(side: string, suspect: RecordedSensor | null, reference: RecordedSensor | null): Judged {
  const what = `${side} sensor kind`;
  if (suspect && reference && (suspect.kind === "unknown" || reference.kind === "unknown")) {
    return { concern: "all", unknown: `The ${side} sensor moved too little to tell its kind.` };
  }
  const [a, b] = [suspect?.kind ?? "not recorded", reference?.kind ?? "not recorded"];
  return {
    concern: "all",
    fair: { what, suspect: a, reference: b, ok: a === b, says: "Only sensors of one kind are compared." },
  };
}

function sampleRate(
  side: string,
  suspect: RecordedSensor | null,
  reference: RecordedSensor | null,
  limits: Limits,
): Judged {
  const [a, b] = [suspect?.rate, reference?.rate];
  if (!a || !b) return { concern: "all" };
  const ok = Math.min(a, b) >= limits.fairRate || Math.max(a, b) <= 3 * Math.min(a, b);
  const told = (rate: number) => measured(rate, [rate, rate], "samples/s");
  const fair = {
    what: `${side} sample rate`,
    suspect: told(a),
    reference: told(b),
    ok,
    says: describeLimit("fairRate", limits),
  };
  return { concern: "all", fair };
}

/** Which kinds of stretch both hold, and whether the engine ran alike in each. */
function stretchKinds(suspect: Comparable, reference: Comparable, limits: Limits): Judged[] {
  const kinds = (side: Comparable) => [...new Set(side.stretches.map(({ kind }) => kind))];
  const [a, b] = [kinds(suspect), kinds(reference)];
  const shared = a.filter((kind) => b.includes(kind));
  const both = { suspect: a.join(", ") || "none", reference: b.join(", ") || "none" };
  const says = "Only stretches of one kind are compared with each other.";
  const oneWithout = a.length > 0 !== b.length > 0 || (a.length > 0 && shared.length === 0);
  const list: Judged[] =
    a.length + b.length === 0
      ? []
      : [{ concern: "stretch", fair: { what: "kinds of stretch", ...both, ok: !oneWithout, says } }];
  return [...list, ...shared.flatMap((kind) => stretchRunning(kind, suspect, reference, limits))];
}

function stretchRunning(kind: string, suspect: Comparable, reference: Comparable, limits: Limits): Judged[] {
  const of = (side: Comparable, key: "airFlow" | "engineSpeed", unit: Unit) =>
    rangeOf(
      side.stretches.filter((one) => one.kind === kind).map((one) => one[key]),
      unit,
    );
  const judged = [
    withinFactor(
      `stretch ${kind}`,
      `engine speed, ${kind}`,
      [of(suspect, "engineSpeed", "1/min"), of(reference, "engineSpeed", "1/min")],
      "fairSpeed",
      limits,
    ),
    withinFactor(
      `stretch ${kind}`,
      `air flow, ${kind}`,
      [of(suspect, "airFlow", "g/s"), of(reference, "airFlow", "g/s")],
      "fairFlow",
      limits,
    ),
  ];
  return judged.filter(({ fair }) => fair);
}
