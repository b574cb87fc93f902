// Channels that move like oxygen sensors but are not named so. Nothing is guessed from this: it is what to ask about.

import type { Samples } from "../../signal/series/series.ts";
import type { Channel } from "../model/capture.ts";
import { wordsOf } from "./roles.ts";

const looked = 5000; // samples are enough to see the range
// Narrow-band sensors give 0 to about 1 V (common practice); one at rest still moves by more than a constant supply does.
const range = { low: -0.3, high: 1.3, least: 0.1, swings: 0.4 };

interface Seen extends Pick<Channel, "role" | "unit" | "name"> {
  /** All samples, or some spread over all. */
  readonly some: Samples;
}

/** Channels within 0 … 1.2 V, where one of them swings; none where the file names a sensor itself. */
export function likelySensors<C extends Seen>(channels: readonly C[]): readonly C[] {
  if (channels.some(({ role }) => role === "front-o2" || role === "rear-o2" || role === "front-lambda")) return [];
  const movers = channels
    .filter(({ role, unit }) => role === "other" && (unit === "V" || unit === ""))
    .map((channel) => ({ channel, spread: spreadOf(channel.some) }))
    .filter(({ channel }) => !isOtherThing(channel.name) && !isSwitch(channel.some))
    .filter(({ spread: [low, high] }) => low >= range.low && high <= range.high && high - low >= range.least);
  const swings = movers.some(({ spread: [low, high] }) => high - low >= range.swings);
  return swings ? movers.map(({ channel }) => channel) : [];
}

/** Names put into one sentence: all of a few, else those that come first. */
export function severalOf(names: readonly string[], most = 6): string {
  if (names.length <= most) return names.join(" and ");
  return `${names.slice(0, most).join(", ")} and ${names.length - most} others`;
}

/** Named for something else: a switch, a way, a supply. */
const isOtherThing = (name: string): boolean =>
  /switch|schalter|brake|distance|\btrip\b|odo|\bkm\b|lat\w*itude|longitude|supply|battery|camera|\bnox\b|\bref\w*\b|time|zeit/i.test(
    wordsOf(name),
  );

/** A switch is off or on: nothing but 0 and 1. */
const isSwitch = (some: Samples): boolean => some.every((value) => Number.isNaN(value) || value === 0 || value === 1);

/** Between the outermost hundredths; infinite where there is no value. */
function spreadOf(samples: Samples): readonly [low: number, high: number] {
  const [low = Number.POSITIVE_INFINITY, high = Number.POSITIVE_INFINITY] = someAt(samples, [0.01, 0.99]);
  return [low, high];
}

/** The values below which these shares of the samples lie, told from some that are spread over all; none without a value. */
export function someAt(samples: Samples, shares: readonly number[]): readonly number[] {
  const stride = Math.max(1, Math.floor(samples.length / looked));
  const some: number[] = [];
  for (let i = 0; i < samples.length; i += stride) if (!Number.isNaN(samples[i]!)) some.push(samples[i]!);
  some.sort((a, b) => a - b);
  return some.length === 0 ? [] : shares.map((share) => some[Math.round(share * (some.length - 1))]!);
}
