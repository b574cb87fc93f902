// The words of the screens for the names in the code: one word per thing, as DEVELOPERS.md lists them.

import type { Means } from "../../workers/protocol.ts";
import type { Role } from "../capture/model/capture.ts";
import type {
  ActivityReadingName,
  Finding,
  FindingId,
  FuelCut,
  SensorReadingName,
  StretchKind,
} from "../exhaust/terms/analysis.ts";
import type { Limits } from "../exhaust/terms/limits.ts";
import { formatNumber } from "../signal/written/digits.ts";
import { formatValue } from "../signal/written/reading-text.ts";

export const roleWords: Readonly<Record<Role, string>> = {
  "front-o2": "Front oxygen sensor",
  "rear-o2": "Rear oxygen sensor",
  "front-lambda": "Front lambda (wide-band)",
  "engine-speed": "Engine speed",
  throttle: "Throttle",
  "road-speed": "Road speed",
  "air-flow": "Air flow",
  "short-trim": "Short fuel trim",
  "long-trim": "Long fuel trim",
  "coolant-temp": "Coolant temperature",
  "catalyst-temp": "Catalyst temperature",
  "fuel-status": "Fuel status",
  "engine-load": "Engine load",
  "manifold-pressure": "Manifold pressure",
  other: "Other",
};

export const stretchWords: Readonly<Record<StretchKind, string>> = {
  "not-running": "engine off",
  cold: "cold",
  idle: "idle",
  cruise: "cruise",
  load: "hard pull",
  overrun: "overrun",
  unsteady: "unsteady",
};

/** What a kind of running means, said where one is chosen. */
export const stretchMeanings: Readonly<Record<StretchKind, string>> = {
  "not-running": "the engine stood still",
  cold: "still warming up",
  idle: "running, foot off, standing",
  cruise: "steady speed above idle",
  load: "throttle well open",
  overrun: "foot off, fuel cut",
  unsteady: "changing, or none of these",
};

const sensorWords: Readonly<Record<SensorReadingName, string>> = {
  frequency: "Switching",
  amplitude: "Swing",
  minimum: "Minimum",
  maximum: "Maximum",
  mean: "Mean",
  richShare: "Rich share",
  crossings: "Crossings",
  crossingsPer10s: "Crossings per 10\u00a0s",
  richToLean: "Rich to lean",
  leanToRich: "Lean to rich",
};

/** Said under a name that does not say it all, by the levels in force. */
export function sensorMeaning(
  name: SensorReadingName,
  { switchLevel, lowLevel, highLevel }: Pick<Limits, "switchLevel" | "lowLevel" | "highLevel">,
): string | undefined {
  const [low, high] = [formatValue(lowLevel, "V"), formatValue(highLevel, "V")];
  const said: Partial<Record<SensorReadingName, string>> = {
    frequency: "full swings, up and down, in a second",
    amplitude: "from lean to rich; single spikes left out",
    richShare: `of the time above ${formatValue(switchLevel, "V")}`,
    richToLean: `time of the fall from ${high} to ${low}`,
    leanToRich: `time of the rise from ${low} to ${high}`,
    mean: "where it would settle, had this running gone on",
  };
  return said[name];
}

/** As a table's row or an exhibit names it: with the level in force where one is counted. */
export const sensorWord = (name: SensorReadingName, { switchLevel }: Pick<Limits, "switchLevel">): string =>
  name === "crossings" ? `${sensorWords.crossings} of ${formatValue(switchLevel, "V")}` : sensorWords[name];

/** Most telling first. */
export const sensorOrder: readonly SensorReadingName[] = [
  "frequency",
  "amplitude",
  "richToLean",
  "leanToRich",
  "crossings",
  "crossingsPer10s",
  "richShare",
  "minimum",
  "maximum",
  "mean",
];

export const activityWords: Readonly<Record<ActivityReadingName, string>> = {
  crossingRatio: "Crossings",
  amplitudeRatio: "Swing",
  ownLevelRatio: "Crossings of the rear's own middle",
  lengthRatio: "Movement, all in all",
  bandRatio: "Swing in the front's rhythm",
  correlation: "How alike they run",
  lag: "Rear later by",
};

/** Said under a name that does not say it all. */
export const activityMeanings: Readonly<Partial<Record<ActivityReadingName, string>>> = {
  lengthRatio: "all ups and downs of the rear added up, as a share of the front's",
  bandRatio: "only what the rear does as often as the front; noise and drift left out",
  correlation: "1: the rear repeats the front; 0: it goes its own way",
};

export const findingWords: Readonly<Record<FindingId, string>> = {
  catalyst: "Catalyst",
  "front-sensor": "Front sensor",
  "rear-sensor": "Rear sensor",
  "air-leak": "Air leak",
  mixture: "Mixture",
  misfire: "Misfire",
  recording: "Recording",
};

const findingSubjects: Readonly<Record<FindingId, string>> = {
  catalyst: "the catalyst",
  "front-sensor": "the front sensor",
  "rear-sensor": "the rear sensor",
  "air-leak": "an air leak",
  mixture: "the mixture",
  misfire: "misfire",
  recording: "the recording",
};

/** "Points to the catalyst", "Cannot say". */
export function verdictText({ verdict, id }: Pick<Finding, "verdict" | "id">): string {
  if (verdict === "cannot-say") return "Cannot say";
  return `${verdict === "points-to" ? "Points to" : "Points away from"} ${findingSubjects[id]}`;
}

/** Of a verdict that stands before the answer is there: while it is open, where the answer says the same, where another. */
export const earlyWords: Readonly<Record<"before" | "first", Readonly<Record<"open" | "same" | "other", string>>>> = {
  before: {
    open: "From your last visit, by an older version of this program. Checking again …",
    same: "Checked again: it stands.",
    other: "Checked again: this version of the program reads the recording otherwise.",
  },
  first: {
    open: "First look. Every sample is being read to confirm it …",
    same: "Confirmed: every sample was read.",
    other: "Changed since the first look: every sample was read.",
  },
};

/** In a list, beside the finding's name. */
export function shortVerdict({ verdict, id }: Pick<Finding, "verdict" | "id">): string {
  if (verdict === "cannot-say") return "cannot say";
  if (id === "recording") return verdict === "points-to" ? "too thin" : "fit to judge";
  return verdict === "points-to" ? "points to it" : "points away";
}

export const fuelCutWords: Readonly<Record<FuelCut, string>> = {
  proven: "fuel cut proven",
  likely: "fuel cut likely",
  unknown: "fuel cut not shown",
};

/** What of a recording larger than memory is told from means; said wherever it is shown. */
export function meansText({ samples, long }: Means): string {
  const time = formatValue(long, "s");
  const means = `means of ${formatNumber(samples, 0)} neighbouring samples (${time})`;
  return `This recording is larger than memory: stretches, lift-offs and findings rest on ${means}, and the bounds of their times allow for that. Readings of a span rest on every sample.`;
}
