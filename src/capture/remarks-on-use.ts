// What is to be said of finished channels, each kind of thing once.

import { longestStep } from "../signal/gaps.ts";
import type { Capture, Channel } from "./capture.ts";
import { likelySensors } from "./likely-sensors.ts";
import { noValueMark } from "./no-value-marks.ts";
import { lookUp } from "./parts.ts";
import type { ReadChoices } from "./reader.ts";
import { hasValue, type Recorded } from "./recorded.ts";
import { missingCells, type RemarkBook } from "./remarks.ts";

export function remarkOnUse(
  channels: Capture["channels"],
  choices: ReadChoices,
  columns: readonly Recorded[],
  remarks: RemarkBook,
): void {
  remarkOnUnits(
    channels.filter((_, i) => lookUp(choices.units, columns[i]!) === undefined),
    remarks,
  );
  for (const { name } of channels.filter(({ series }) => !hasValue(series.samples))) {
    remarks.withdraw(missingCells, name);
    remarks.tally("channels that never hold a value", undefined, 1, name);
  }
  const polled = channels.filter((channel) => channel.polled);
  if (polled.some(({ series }) => (series.time.doubt?.early ?? 0) > 0))
    remarks.say("polled log: each value may be up to one row older than its stamp");
  else if (polled.length > 0) remarks.say("polled log: the values of a row are taken as simultaneous");
  remarkOnGaps(channels, remarks);
  remarkOnSensors(likelySensors(channels), remarks);
  if (choices.missing === undefined) for (const channel of channels) remarkOnMark(channel, remarks);
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

function remarkOnSensors(likely: readonly Channel[], remarks: RemarkBook): void {
  if (likely.length === 0) return;
  const [first, second] = likely.map(({ name }) => name);
  const list = likely.map(({ name }) => name).join(" and ");
  remarks.say(
    second === undefined
      ? `no channel is named as an oxygen sensor, but ${first} moves like one (0 to 1.2 V): say whether it is before or after the catalyst (on the command line --role "${first}=front-o2" or rear-o2)`
      : `no channel is named as an oxygen sensor, but ${list} move like them (0 to 1.2 V): say which is before the catalyst and which after it (on the command line --role "${first}=front-o2" --role "${second}=rear-o2", or the other way round)`,
  );
}

/** Holes in the recording, by the same rule as the measurements have it; channels that share their stamps share their holes. */
function remarkOnGaps(channels: readonly Channel[], remarks: RemarkBook): void {
  const seen = new Set<Float64Array>();
  for (const { series } of channels) {
    if (series.time.kind !== "stamped" || seen.has(series.time.stamps)) continue;
    const { stamps } = series.time;
    seen.add(stamps);
    const limit = longestStep(stamps);
    for (let i = 1; i < stamps.length; i++) {
      const [from, to] = [stamps[i - 1]!, stamps[i]!];
      if (to - from > limit) remarks.tally("holes, in which nothing was recorded", `${shown(from)} to ${shown(to)} s`);
    }
  }
}

const shown = (seconds: number): number => Number(seconds.toFixed(2));

function remarkOnMark(channel: Channel, remarks: RemarkBook): void {
  const mark = noValueMark(channel);
  if (!mark) return;
  remarks.tally(
    `${channel.name}: ${mark.volts} V cannot come from the sensor; if it stands for "no value", say so (on the command line --missing ${mark.written})`,
    undefined,
    mark.count,
  );
}
