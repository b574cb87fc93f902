// What to record so that a finding can be made, in which order, and what of it the captures already hold.

import { askedRate } from "../../signal/numbers/asked-rate.ts";
import { asWritten } from "../../signal/written/words.ts";
import type { Analysis, Stretch, StretchKind } from "../terms/analysis.ts";

export type GuideStepId = "warm-up" | "idle" | "cruise" | "lift-off" | "trims";

export interface GuideStep {
  readonly id: GuideStepId;
  readonly title: string;
  /** What to do, in the order of doing it. */
  readonly what: readonly string[];
  /** Few, so that a polled log is fast. */
  readonly channels: readonly string[];
  readonly rate: string;
  readonly cautions: readonly string[];
  readonly done: boolean;
  /** What the captures so far lack for this step; "" when done. */
  readonly missing: string;
}

export interface RecordingGuide {
  /** Hold for every step. */
  readonly cautions: readonly string[];
  readonly steps: readonly GuideStep[];
  /** One sentence: what to record next; "" when nothing is missing. */
  readonly next: string;
  /** Which wire, where the ground, range and rate. */
  readonly connections: readonly string[];
  /** The condition that stood against the longest steady stretch of the last recording; null where none did. */
  readonly failedLast: string | null;
}

/** What was measured on a capture, and how often its rear sensor was sampled, Hz; null where that is not known. */
export interface Recorded {
  readonly analysis: Analysis;
  readonly rearRate: number | null;
}

/** Common practice; local rules and licensed practice come first. */
const cautions: readonly string[] = [
  "Exhaust and catalyst are hotter than 500 °C: keep hands, leads and clothing away, and let parts cool before you touch them.",
  "Exhaust gas is poisonous: draw it off to the outside, also for a short run.",
  "Keep hair, sleeves and leads clear of belts and fans. Standing: chocks at the wheels, brake on, neutral or park.",
  "On the road a second person records. Nobody who drives looks at a screen.",
  "Keep to the traffic law and speed limits of the place, and to your workshop's rules. A test bench is the better road.",
  "Take the signal with a back-probe and put nothing into a sensor's line.",
];

/** Common practice; the maker's wiring diagram decides which wire is which. */
const connections: readonly string[] = [
  "Signal: the sensor's signal wire at its plug or at the engine computer, by the maker's wiring diagram, with a back-probe.",
  "Ground: at the sensor's own ground wire or the engine block, never at the body or a heater's ground: the heater's current shifts it.",
  `Range 0 to 2 V, direct current, ${askedRate} on both sensors at once; note the factor of the probe.`,
  "The heater's wires carry battery voltage, switched: keep the probe off them.",
  "A wide-band front sensor has no 0 to 1 V signal, and a probe on its pump wires disturbs it: take lambda from the engine computer instead.",
  "Before each lift-off hold it rich until the rear is above 0.6 V: only then is the store empty, and the time tells.",
];

const sensorsOnly = ["front oxygen sensor", "rear oxygen sensor"];
const scopeRate = `${askedRate}; a polled log as fast as it goes, with no other channel`;

interface Plan extends Omit<GuideStep, "done" | "missing"> {
  /** "" when `recorded` holds it, else what is missing. */
  missingIn(recorded: readonly Recorded[]): string;
}

const plans: readonly Plan[] = [
  {
    id: "warm-up",
    title: "Warm engine and catalyst",
    what: [
      "Bring the coolant above 80 °C.",
      "Drive, or hold 2000 to 2500 rpm, for 3 to 5 minutes.",
      "Record on from there without a stop, so that the recording shows it.",
    ],
    channels: [...sensorsOnly, "coolant temperature"],
    rate: "as the steps below",
    cautions: [],
    missingIn: (all) => (all.some(isHot) ? "" : "No recording shows both sensors awake and the catalyst hot."),
  },
  {
    id: "idle",
    title: "Idle, one minute",
    what: [
      "Let it idle in closed loop for 60 s or more.",
      "Switch off large electrical loads and the air conditioning.",
    ],
    channels: [...sensorsOnly, "engine speed"],
    rate: scopeRate,
    cautions: [],
    missingIn: (all) => steadyMissing(all, "idle"),
  },
  {
    id: "cruise",
    title: "Steady cruise, one minute",
    what: [
      "Hold a steady 2000 to 3000 rpm under load for 60 s or more: on a test bench, else on the road.",
      "A weak catalyst lets go here first. A fast idle without load asks less of it.",
    ],
    channels: [...sensorsOnly, "engine speed", "air flow"],
    rate: scopeRate,
    cautions: ["On the road: a second person records, the driver drives."],
    missingIn: (all) => steadyMissing(all, "cruise"),
  },
  {
    id: "lift-off",
    title: "Three lift-offs",
    what: [
      "From a steady pull, or in neutral from a firm opening of the throttle, let go of the throttle at once above 2500 rpm.",
      "Stay off the throttle for 4 s or more, so that the rear sensor can follow.",
      "Wait 10 s and do it again, three times in all.",
    ],
    channels: [...sensorsOnly, "engine speed", "throttle", "air flow"],
    rate: scopeRate,
    cautions: ["Only with a warm engine, and below its highest permitted speed."],
    missingIn: (all) => liftOffsMissing(all),
  },
  {
    id: "trims",
    title: "Fuel trims at idle and cruise",
    what: [
      "Record short and long fuel trim at idle and at steady cruise, 30 s each.",
      "A slow log is good enough for this.",
    ],
    channels: ["short fuel trim", "long fuel trim", "fuel system status", "engine speed"],
    rate: "1 sample/s or more",
    cautions: [],
    missingIn: (all) => (all.some(hasTrims) ? "" : "No recording shows fuel trims in closed loop."),
  },
];

/** Ticks off what the captures hold and names what is missing. Pure; an empty list gives the whole plan. */
export function recordingGuide(recorded: readonly Recorded[]): RecordingGuide {
  const steps = plans.map(({ missingIn, ...plan }): GuideStep => {
    const missing = missingIn(recorded);
    return { ...plan, what: plan.what.map(asWritten), done: missing === "", missing };
  });
  const first = steps.find(({ done }) => !done);
  const failed = longestUnfit(recorded.slice(-1), ["idle", "cruise"])?.because ?? null;
  return {
    cautions: cautions.map(asWritten),
    connections: connections.map(asWritten),
    failedLast: failed !== null && first?.missing.includes(failed) ? null : failed,
    steps,
    next: first ? `Record next: ${first.title.toLowerCase()}. ${first.missing}` : "",
  };
}

const isHot = ({ analysis: { awake, warmth } }: Recorded): boolean =>
  awake.front?.awakeFrom != null && awake.rear?.awakeFrom != null && warmth.hotFrom !== null;

/** Names the condition that failed where such running was recorded: of the longest part, for it came nearest. */
function steadyMissing(all: readonly Recorded[], kind: "idle" | "cruise"): string {
  if (holdsFit(all, kind)) return "";
  const name = kind === "idle" ? "idle" : "steady cruise";
  const longest = longestUnfit(all, [kind]);
  return longest
    ? `The ${name} recorded cannot be judged. ${longest.because}`
    : `No ${name} with engine and catalyst hot was recorded.`;
}

function longestUnfit(all: readonly Recorded[], kinds: readonly StretchKind[]): Stretch | null {
  const unfit = all
    .flatMap(({ analysis }) => analysis.stretches)
    .filter(({ fit, kind }) => !fit && kinds.includes(kind));
  return unfit.reduce<Stretch | null>(
    (best, one) => (best === null || one.to - one.from > best.to - best.from ? one : best),
    null,
  );
}

const holdsFit = (all: readonly Recorded[], kind: StretchKind): boolean =>
  all.some(({ analysis: { stretches, awake } }) =>
    stretches.some((one) => one.kind === kind && (one.fit || (awake.front?.kind === "wide-band" && lasts(one)))),
  );

/** Behind a wide-band front, which has no cycles to count, so long is enough to see how far the rear swings, s. Own choice. */
const lasts = ({ from, to }: Stretch): boolean => to - from >= 20;

const hasTrims = ({ analysis }: Recorded): boolean =>
  analysis.stretches.some(({ trims }) => trims !== null && trims.total.value !== null);

function liftOffsMissing(all: readonly Recorded[]): string {
  const valid = all.reduce(
    (sum, { analysis }) => sum + analysis.liftOffs.filter((one) => one.setAside === null).length,
    0,
  );
  if (valid >= 3) return all.some(isFast) ? "" : "The lift-offs were recorded too slowly to time a quick rear sensor.";
  return valid === 0 ? "No lift-off that can be judged." : `Only ${valid} of 3 lift-offs that can be judged.`;
}

const isFast = ({ analysis, rearRate }: Recorded): boolean =>
  rearRate !== null && rearRate >= 50 && analysis.liftOffs.some((one) => one.setAside === null);
