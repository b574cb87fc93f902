// From when the catalyst can be taken as hot.

import type { Channel } from "../../capture/model/capture.ts";
import { timeAt } from "../../signal/series/series.ts";
import type { Awakening, Warmth } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import type { Limits } from "../terms/limits.ts";
import { quantity } from "../terms/words.ts";

/** What tells whether the catalyst is hot: its own temperature, else the coolant's, else the time since the front woke. */
export function warmthOf(channels: BankChannels, front: Awakening | null, limits: Limits): Warmth {
  const own = channels.catalystTemperature;
  if (own) return byTemperature(own, limits.hotCatalyst, "catalyst");
  if (channels.coolant) return byTemperature(channels.coolant, limits.warmCoolant, "coolant");
  if (!front || front.awakeFrom === null) {
    return { hotFrom: 0, told: "unknown", says: "Nothing in the recording says whether the catalyst was hot." };
  }
  if (front.leftBias.value === null) {
    return {
      hotFrom: 0,
      told: "unknown",
      says: "No temperature was recorded; the front sensor was awake from the beginning, so the catalyst is taken as hot.",
    };
  }
  const hotFrom = front.leftBias.value + limits.warmingTime;
  return {
    hotFrom,
    told: "likely",
    says: `No temperature was recorded and the recording begins cold: the catalyst is taken as hot from ${quantity(Math.round(hotFrom), "s")}, ${quantity(limits.warmingTime, "s")} after the front sensor woke.`,
  };
}

function byTemperature(channel: Channel, least: number, what: "catalyst" | "coolant"): Warmth {
  const told = what === "catalyst" ? "known" : "likely";
  const index = channel.series.samples.findIndex((value) => value >= least);
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
    says: `The ${what} was at ${quantity(least, "degC")} or more ${from}: the catalyst is taken as hot.`,
  };
}
