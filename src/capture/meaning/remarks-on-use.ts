// What is to be said of finished channels, each kind of thing once.

import type { Seconds } from "../../signal/numbers/units.ts";
import { longestStep } from "../../signal/series/gaps.ts";
import type { Samples } from "../../signal/series/series.ts";
import { mostPlaces } from "../../signal/stamps/step-tally.ts";
import type { Words } from "../../signal/written/words.ts";
import type { Channel } from "../model/capture.ts";
import { type NoValueMark, noValueMark } from "../model/no-value-marks.ts";
import type { ReadChoices } from "../model/reader.ts";
import { missingCells, type RemarkBook } from "../model/remarks.ts";
import { hasValue, type Recorded } from "../time/recorded.ts";
import { lookUp } from "./chosen-roles.ts";
import { likelySensors, severalOf } from "./likely-sensors.ts";
import { roleNamedBy } from "./roles.ts";

/** Finished channels, what was read of each, and what was said of them. */
export interface Used {
  readonly channels: readonly Channel[];
  /** One a channel. */
  readonly columns: readonly Pick<Recorded, "name" | "header">[];
  readonly seen: readonly Seen[];
  /** One entry for each time base. */
  readonly holes: readonly Holes[];
  readonly choices: ReadChoices;
}

/** What is to be known of all samples of a channel. */
export interface Seen {
  readonly hasValue: boolean;
  /** All samples, or enough of them to show their range. */
  readonly some: Samples;
  readonly mark: NoValueMark | null;
}

/** Steps in which nothing was recorded. */
export interface Holes {
  readonly count: number;
  /** The first ones, in order. */
  readonly where: readonly { readonly from: Seconds; readonly to: Seconds }[];
}

/** Of channels whose samples are all in memory. */
export function usedOf(channels: readonly Channel[], columns: readonly Recorded[], choices: ReadChoices): Used {
  const seen = channels.map(
    (channel): Seen => ({
      get hasValue() {
        return hasValue(channel.series.samples);
      },
      some: channel.series.samples,
      get mark() {
        return noValueMark(channel);
      },
    }),
  );
  return { channels, columns, seen, holes: holesIn(channels), choices };
}

export function remarkOnUse({ channels, columns, seen, holes, choices }: Used, remarks: RemarkBook): void {
  remarkOnUnits(
    channels.filter((_, i) => lookUp(choices.units, columns[i]!) === undefined),
    remarks,
  );
  for (const { name } of channels.filter((_, i) => !seen[i]!.hasValue)) {
    remarks.withdraw(missingCells, name);
    const isSensor = ["front-o2", "rear-o2", "front-lambda"].includes(roleNamedBy(name, "").role);
    const what = isSensor ? "named as an oxygen sensor, but holds no value" : "channels that never hold a value";
    remarks.tally(what, undefined, 1, name);
  }
  const polled = channels.filter((channel) => channel.polled);
  if (polled.some(({ series }) => (series.time.doubt?.early ?? 0) > 0))
    remarks.say("polled log: each value may be up to one row older than its stamp");
  else if (polled.length > 0) remarks.say("polled log: the values of a row are taken as simultaneous");
  for (const { count, where } of holes) if (count > 0) remarks.tally(holesAt(where, count), undefined, count);
  remarkOnSensors(likelySensors(channels.map((channel, i) => ({ ...channel, some: seen[i]!.some }))), remarks);
  if (choices.missing === undefined)
    for (const [i, { name }] of channels.entries()) remarkOnMark(name, seen[i]!.mark, remarks);
  for (const name of Object.keys({ ...choices.roles, ...choices.units })) {
    if (!columns.some((column) => lookUp({ [name]: true }, column))) remarks.say(`no column is named ${name}`);
  }
}

/** Of units that only the quantity suggested. */
function remarkOnUnits(channels: readonly Channel[], remarks: RemarkBook): void {
  const byUnit = new Map<string, string[]>();
  for (const { assumedUnit, name } of channels) {
    if (assumedUnit && assumedUnit !== "1") byUnit.set(assumedUnit, [...(byUnit.get(assumedUnit) ?? []), name]);
  }
  const list = [...byUnit].map(([unit, names]) => `${unit} (${names.join(", ")})`).join("; ");
  if (list !== "") remarks.say(`no unit is written; the usual one was taken: ${list}`);
}

function remarkOnSensors(likely: readonly { readonly name: string }[], remarks: RemarkBook): void {
  if (likely.length === 0) return;
  const [first, second] = likely.map(({ name }) => name);
  const list = severalOf(likely.map(({ name }) => name));
  remarks.say(
    second === undefined
      ? `no channel is named as an oxygen sensor, but ${first} moves like one (0 to 1.2 V): say whether it is before or after the catalyst (on the command line --role "${first}=front-o2" or rear-o2)`
      : `no channel is named as an oxygen sensor, but ${list} move like them (0 to 1.2 V): say which is before the catalyst and which after it (on the command line --role "${first}=front-o2" --role "${second}=rear-o2", or the other way round)`,
  );
}

/**
 * By the same rule as the measurements have it; channels that share their stamps share their holes. Channels that were asked in
 * turn stopped one after the other: what overlaps is one hole, from when the last stopped until the first went on.
 */
function holesIn(channels: readonly Channel[]): Holes[] {
  const stamps = channels.flatMap(({ series: { time } }) => (time.kind === "stamped" ? [time.stamps] : []));
  const all = [...new Set(stamps)].flatMap(stepsWithout).sort((a, b) => a.from - b.from);
  const where: { from: Seconds; to: Seconds }[] = [];
  for (const { from, to } of all) {
    const last = where.at(-1);
    if (last && from < last.to) where[where.length - 1] = { from, to: Math.min(to, last.to) };
    else where.push({ from, to });
  }
  return [{ count: where.length, where: where.slice(0, mostPlaces) }];
}

function stepsWithout(stamps: Float64Array): { readonly from: Seconds; readonly to: Seconds }[] {
  const limit = longestStep(stamps);
  const found: { from: Seconds; to: Seconds }[] = [];
  for (let i = 1; i < stamps.length; i++)
    if (stamps[i]! - stamps[i - 1]! > limit) found.push({ from: stamps[i - 1]!, to: stamps[i]! });
  return found;
}

function holesAt(where: Holes["where"], count: number): Words {
  const places = where.flatMap((place, i) => (i === 0 ? [place] : [", ", place]));
  const more = count > where.length ? ` and ${count - where.length} more` : "";
  return ["holes, in which nothing was recorded: ", ...places, more];
}

function remarkOnMark(name: string, mark: NoValueMark | null, remarks: RemarkBook): void {
  if (!mark) return;
  remarks.tally(
    [
      `${name}: `,
      { value: mark.volts, unit: "V" },
      ` cannot come from the sensor; if it stands for "no value", say so (on the command line --missing ${mark.written})`,
    ],
    undefined,
    mark.count,
  );
}
