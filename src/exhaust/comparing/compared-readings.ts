// Every reading that two recordings may share, side by side: the lift-off first, then each kind of stretch.

import { medianOf } from "../../signal/combining/combine.ts";
import { notResolvable, type Reading, type Unit } from "../../signal/numbers/reading.ts";
import type { Activity, Sensor } from "../terms/analysis.ts";
import type { LimitName } from "../terms/limits.ts";
import type { Comparable, ComparedLiftOff, ComparedStretch, Concern } from "./comparison.ts";

export interface SharedReading {
  readonly name: string;
  readonly label: string;
  readonly suspect: Reading;
  readonly reference: Reading;
  /** A ratio where both are sizes; a difference where zero or the sign means something. */
  readonly by: "ratio" | "difference";
  /** How far one catalyst recorded twice may be apart. */
  readonly repeat: LimitName;
  readonly concern: Concern;
  /** Falls with rising air flow, as a delay does. */
  readonly followsFlow: boolean;
}

export function sharedReadings(suspect: Comparable, reference: Comparable): SharedReading[] {
  return [...liftOffReadings(suspect, reference), ...stretchReadings(suspect, reference)];
}

type EventReading = "delay" | "storedOxygen" | "richAgain" | "rearSwitch";

const eventRows: readonly (readonly [EventReading, string, Unit])[] = [
  ["delay", "Delay of the rear's fall behind the front's", "s"],
  ["storedOxygen", "Oxygen that passed meanwhile", "g"],
  ["richAgain", "Rear rich again behind the front", "s"],
  ["rearSwitch", "Rear's own fall, 0.3 to 0.15 V", "s"],
];

function liftOffReadings(suspect: Comparable, reference: Comparable): SharedReading[] {
  if (suspect.liftOffs.length === 0 && reference.liftOffs.length === 0) return [];
  return eventRows.map(([name, label, unit]) => ({
    name,
    label,
    suspect: overEvents(suspect.liftOffs, name, unit),
    reference: overEvents(reference.liftOffs, name, unit),
    by: "ratio",
    repeat: name === "delay" || name === "storedOxygen" ? "repeatDelay" : "repeatTime",
    concern: "lift-off",
    followsFlow: name === "delay" || name === "richAgain",
  }));
}

function overEvents(events: readonly ComparedLiftOff[], name: EventReading, unit: Unit): Reading {
  if (events.length === 0) return notResolvable(unit, "No lift-off that counts was recorded.");
  const known = events.map((event) => event[name]).filter(({ grade }) => grade !== "not-resolvable");
  return known.length > 0 ? medianOf(known, unit) : events[0]![name];
}

const activityRows: readonly (readonly [keyof Activity, string, SharedReading["by"], LimitName])[] = [
  ["amplitudeRatio", "Rear over front, swing", "ratio", "repeatLevel"],
  ["crossingRatio", "Rear over front, crossings", "ratio", "repeatLevel"],
  ["lengthRatio", "Rear over front, movement all in all", "difference", "repeatLevel"],
  ["ownLevelRatio", "Rear over front, crossings of its own middle", "difference", "repeatCount"],
  ["bandRatio", "Rear over front, swing in the front's rhythm", "difference", "repeatLevel"],
  ["lag", "Rear behind front", "difference", "repeatTime"],
];

const sensorRows: readonly (readonly [keyof Sensor, string, SharedReading["by"], LimitName])[] = [
  ["frequency", "switching frequency", "ratio", "repeatTime"],
  ["amplitude", "swing", "ratio", "repeatLevel"],
  ["minimum", "minimum", "difference", "repeatLevel"],
  ["maximum", "maximum", "ratio", "repeatLevel"],
  ["richShare", "rich share", "difference", "repeatLevel"],
  ["richToLean", "rich to lean, 0.6 to 0.3 V", "ratio", "repeatTime"],
  ["leanToRich", "lean to rich, 0.3 to 0.6 V", "ratio", "repeatTime"],
];

function stretchReadings(suspect: Comparable, reference: Comparable): SharedReading[] {
  const kinds = [...new Set(suspect.stretches.map(({ kind }) => kind))];
  return kinds.flatMap((kind) => {
    const of = (side: Comparable) => side.stretches.filter((one) => one.kind === kind);
    const [mine, theirs] = [of(suspect), of(reference)];
    return theirs.length === 0 ? [] : kindReadings(kind, mine, theirs);
  });
}

function kindReadings(
  kind: string,
  mine: readonly ComparedStretch[],
  theirs: readonly ComparedStretch[],
): SharedReading[] {
  const both = (pick: (one: ComparedStretch) => Reading | undefined) => {
    const [suspect, reference] = [overStretches(mine, pick), overStretches(theirs, pick)];
    return suspect && reference ? { suspect, reference } : null;
  };
  const common = { concern: `stretch ${kind}` as const, followsFlow: false };
  const rows = activityRows.map(([key, label, by, repeat]) => {
    const found = both((one) => activityReading(one, key));
    return found && { ...common, ...found, by, repeat, name: `${kind}.${key}`, label: `${label}, ${kind}` };
  });
  const sensor = (["rear", "front"] as const).flatMap((side) =>
    sensorRows.map(([key, label, by, repeat]) => {
      const found = both((one) => one[side]?.[key]);
      const about = side === "rear" ? "Rear" : "Front";
      return (
        found && {
          ...common,
          ...found,
          by,
          repeat,
          name: `${kind}.${side}.${key}`,
          label: `${about} ${label}, ${kind}`,
        }
      );
    }),
  );
  return [...rows, ...sensor].filter((one) => one !== null);
}

/** A lag means something only where the two sensors move alike: a correlation of certainly more than a half. */
function activityReading({ activity }: ComparedStretch, key: keyof Activity): Reading | undefined {
  if (!activity) return undefined;
  if (key !== "lag" || (activity.correlation.low ?? 0) > 0.5) return activity[key];
  return notResolvable("s", "The rear does not move as the front does, so no lag can be told.");
}

function overStretches(
  stretches: readonly ComparedStretch[],
  pick: (one: ComparedStretch) => Reading | undefined,
): Reading | null {
  const readings = stretches.flatMap((one) => pick(one) ?? []);
  const known = readings.filter(({ grade }) => grade !== "not-resolvable");
  if (known.length === 0) return readings[0] ?? null;
  return known.length === 1 ? known[0]! : medianOf(known, known[0]!.unit);
}
