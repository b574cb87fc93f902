// Sentences about the catalyst that several verdicts share.

import { formatReading } from "../../signal/written/reading-text.ts";
import type { Finding, Stretch } from "../terms/analysis.ts";
import type { Limits } from "../terms/limits.ts";
import { asShare, counted, inWords, quantity } from "../terms/words.ts";
import type { LiftOffEvidence } from "./lift-off-evidence.ts";
import type { RearSwing } from "./rear-swing.ts";
import { whereInWords } from "./scene.ts";

/** "The rear sensor follows the front one at cruise (12 to 48 s): …" */
export function follows(stretch: Stretch, { switchLevel }: Limits): string {
  const { amplitudeRatio, crossingRatio, ownLevelRatio } = stretch.activity!;
  const swing = Math.round(100 * (amplitudeRatio.value ?? 0));
  const own = (crossingRatio.value ?? 0) < (ownLevelRatio.value ?? 0) - 0.1;
  const often = Math.round(100 * ((own ? ownLevelRatio : crossingRatio).value ?? 0));
  const level = own ? "its own middle" : quantity(switchLevel, "V");
  return `The rear sensor follows the front one ${whereInWords(stretch)}: it swings ${quantity(swing, "%")} as far and crosses ${level} ${often} times for every 100 times of the front.`;
}

/** "After lifting off the rear fell 0.05 s (0.04 to 0.06) after the front (3 lift-offs)."; "" without a delay. */
export function delaySentence({ delay, count }: LiftOffEvidence): string {
  if (!delay) return "";
  const events = counted(count, "lift-off");
  if (delay.value === null) {
    if (delay.high === null) return "";
    const { bounds } = formatReading({ ...delay, grade: "not-resolvable" });
    return `After lifting off the rear fell ${bounds} after the front (${events}).`;
  }
  if (delay.grade === "at-least" && !(delay.low! > 0)) {
    const why = count > 1 ? ", for they do not agree" : "";
    return `How long the rear held on after lifting off cannot be told (${events}${why}).`;
  }
  if (delay.grade === "at-least") return `After lifting off the rear held on for ${inWords(delay)} (${events}).`;
  if (delay.grade === "at-most" && delay.high !== null)
    return `After lifting off the rear fell within ${inWords(delay).replace("at most ", "")} of the front (${events}).`;
  return `After lifting off the rear fell ${inWords(delay)} after the front (${events}).`;
}

/** "At cruise (12 to 48 s) the rear sensor stays calm: …" */
export function calmIn(stretch: Stretch): string {
  const { amplitudeRatio, crossingRatio } = stretch.activity!;
  return `${whereCapital(stretch)} the rear sensor stays calm: its swing is ${asShare(amplitudeRatio)} of the front's, its crossings ${asShare(crossingRatio)}.`;
}

/** "At cruise (12 to 48 s) the rear sensor swings 0.03 V (0.02 to 0.05)."; "" without a swing. */
export function swingSentence(swings: readonly RearSwing[]): string {
  const [widest] = swings;
  return widest ? `${whereCapital(widest.stretch)} the rear sensor swings ${inWords(widest.swing)}.` : "";
}

/** "At cruise (12 to 48 s)" */
export const whereCapital = (stretch: Stretch): string => {
  const where = whereInWords(stretch);
  return `${where.charAt(0).toUpperCase()}${where.slice(1)}`;
};

export const lower = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;

export const weakFirst = "It holds at idle and lets go at cruise: that is how a weak catalyst begins.";

const names: Readonly<Record<string, string>> = {
  "front-sensor": "the front sensor",
  "air-leak": "the air leak",
  mixture: "the fuel mixture",
  misfire: "the misfire",
};

/** "the air leak and the misfire". */
const inOneBreath = (findings: readonly Finding[]): string => findings.map(({ id }) => names[id] ?? id).join(" and ");

/** "Put the air leak right, then repeat this recording." */
export const putRight = (findings: readonly Finding[]): string =>
  `Put ${inOneBreath(findings)} right, then repeat this recording.`;

/** What points to itself can look like a dead catalyst, so it comes first. */
export const putRightFirst = (findings: readonly Finding[]): string =>
  `But ${inOneBreath(findings)} must be put right first: it can look the same. After that, record again.`;
