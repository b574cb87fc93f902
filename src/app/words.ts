// The words of the screens for the names in the code: one word per thing, as DEVELOPERS.md lists them.

import type { Role } from "../capture/capture.ts";
import type {
  ActivityReadingName,
  FindingId,
  FuelCut,
  SensorReadingName,
  StretchKind,
  Verdict,
} from "../exhaust/analysis.ts";

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

export const sensorWords: Readonly<Record<SensorReadingName, string>> = {
  frequency: "Switching",
  amplitude: "Swing",
  minimum: "Minimum",
  maximum: "Maximum",
  mean: "Mean",
  richShare: "Rich share",
  crossings: "Crossings of 0.45 V",
  crossingsPer10s: "Crossings per 10 s",
  richToLean: "Rich to lean",
  leanToRich: "Lean to rich",
};

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
  lengthRatio: "Line length",
  bandRatio: "At the front's frequency",
  correlation: "Likeness",
  lag: "Rear later by",
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

/** With the subject after it: "Points to the catalyst". */
export const verdictWords: Readonly<Record<Verdict, string>> = {
  "points-to": "Points to",
  "points-away": "Points away from",
  "cannot-say": "Cannot say",
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

/** "Points to the catalyst", "Cannot say: the catalyst". */
export function verdictText(verdict: Verdict, id: FindingId): string {
  const join = verdict === "cannot-say" ? ": " : " ";
  return `${verdictWords[verdict]}${join}${findingSubjects[id]}`;
}

export const fuelCutWords: Readonly<Record<FuelCut, string>> = {
  proven: "fuel cut proven",
  likely: "fuel cut likely",
  unknown: "fuel cut not shown",
};
