// From when the catalyst can be taken as hot.

import type { Channel } from "../../capture/model/capture.ts";
import { indexAt, type Series, timeAt } from "../../signal/series/series.ts";
import type { Awakening, Warmth } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { quantity } from "../terms/words.ts";

/**
 * The recording begins with fuel cut: the front stands at air, not at its bias, as the rear is rich or the engine too fast for
 * a cold idle.
 */
function beganOnOverrun({ rear, engineSpeed }: BankChannels, front: Awakening, limits: Limits): boolean {
  if (!(front.bias.value !== null && front.bias.value < limits.biasLow)) return false;
  const isRich = (rear?.series.samples.find(Number.isFinite) ?? 0) > limits.highLevel;
  return isRich || (engineSpeed?.series.samples.find(Number.isFinite) ?? 0) > fasterThanCold;
}

/** No engine idles as fast as this, 1/min, however cold. Common practice. */
const fasterThanCold = 1800;

/** What tells whether the catalyst is hot: its own temperature, else the coolant's, else the time since the front woke. */
export function warmthOf(channels: BankChannels, front: Awakening | null, limits: Limits): Warmth {
  const own = channels.catalystTemperature;
  if (own) return byTemperature(own, limits.hotCatalyst, "catalyst");
  if (channels.coolant) return byTemperature(channels.coolant, limits.warmCoolant, "coolant");
  if (!front || front.awakeFrom === null) {
    return { hotFrom: 0, told: "unknown", says: "Nothing in the recording says whether the catalyst was hot." };
  }
  if (front.leftBias.value === null || beganOnOverrun(channels, front, limits)) {
    return {
      hotFrom: 0,
      told: "unknown",
      says: "No temperature was recorded; the sensors were awake from the beginning, so the catalyst is taken as hot.",
    };
  }
  const hotFrom = front.leftBias.value + limits.warmingTime;
  return {
    hotFrom,
    told: "likely",
    says: `No temperature was recorded and the recording begins cold: the catalyst is taken as hot from ${quantity(Math.round(hotFrom), "s")}, ${quantity(limits.warmingTime, "s")} after the front sensor woke.`,
  };
}

/** A temperature that swings about the limit is reached once it is within this of it, degC. Own choice. */
const swing = 3;

function byTemperature(channel: Channel, wanted: number, what: "catalyst" | "coolant"): Warmth {
  const reaches = channel.series.samples.some((value) => value >= wanted);
  const least = reaches ? wanted - swing : wanted;
  const told = what === "catalyst" ? "known" : "likely";
  const index = hotIndex(channel.series, least, what);
  if (index < 0) {
    return {
      hotFrom: null,
      told,
      says: `The ${what} never reached ${quantity(least, "degC")}: the catalyst was not hot.`,
    };
  }
  const hotFrom = timeAt(channel.series.time, index);
  const from = index === 0 ? "from the beginning" : `from ${quantity(Math.round(hotFrom), "s")}`;
  return {
    hotFrom,
    told,
    says: `The ${what} was ${channel.series.samples[index]! >= least ? `at ${quantity(least, "degC")} or more` : "held steady by its thermostat"} ${from}: the catalyst is taken as hot.`,
  };
}

/** A thermostat holds the coolant so far below the limit, K, and it rises no more than so much, K, in so long, s. From memory. */
const thermostat = { below: 10, rise: 1, within: 30 } as const;

/** First sample that is warm, or from which a coolant near the limit rises no more; -1 for none. */
function hotIndex({ samples, time }: Series, least: number, what: "catalyst" | "coolant"): number {
  const warm = samples.findIndex((value) => value >= least);
  if (what === "catalyst") return warm;
  for (let i = 0; i < samples.length && i !== warm; i++) {
    if (!(samples[i]! >= least - thermostat.below)) continue;
    const later = indexAt(time, timeAt(time, i) + thermostat.within);
    if (later >= samples.length) break;
    if (samples[later]! <= samples[i]! + thermostat.rise) return i;
  }
  return warm;
}
