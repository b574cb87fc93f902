// Explanations of a recording, and the recordings that tell them apart, in words: the one place for them.

import type { Limits } from "../terms/limits.ts";
import type { Rival, Separator, StoreStudy } from "../terms/store-study.ts";
import { inWords, quantity } from "../terms/words.ts";
import { leakTestBetween } from "./by-hand-steps.ts";
import { again, recordFlow } from "./record-again.ts";

/** As the subject of a sentence, no capital, no full stop. */
export const rivalInWords: Readonly<Record<Rival, string>> = {
  sound: "a sound catalyst",
  worn: "a worn catalyst",
  dead: "a catalyst that stores hardly any oxygen",
  "slow-front": "a slow front sensor",
  "slow-rear": "a slow rear sensor",
  "rear-asleep": "a rear sensor that sleeps or is off its level",
  "leak-ahead": "air that leaks in ahead of the front sensor",
  "leak-between": "air that leaks in between the catalyst and the rear sensor",
  rich: "a mixture that is too rich",
  lean: "a mixture that is too lean",
  misfire: "misfire",
  "swapped-leads": "front and rear leads in each other's place",
  "swapped-banks": "the two banks in each other's place",
  "no-fuel-cut": "lift-offs without a fuel cut",
};

export const separatorInWords: Readonly<Record<Separator, string>> = {
  faster: again.bothFaster,
  "lift-offs": again.liftOffsFromPull,
  cruise: again.cruiseWithFlow,
  "hard-pull": again.pullBehindLeak,
  "air-flow": recordFlow.asWell,
  "smoke-test": leakTestBetween,
  "front-test": "Test the front sensor, then repeat this recording.",
  "rear-test": "Test or renew the rear sensor, then repeat this recording.",
  "mixture-cured": "Put the mixture right, then repeat this recording.",
  "leads-checked": "Check which lead is on which sensor, and which channel is called which.",
};

/** "Fitted to everything recorded, the catalyst holds 0.05 g (0.01 to 0.12) of oxygen; …" */
export function storeSentence(study: StoreStudy, { sureAir }: Limits): string {
  const { asTaken, value: best, reading, explained, airDoubt } = study;
  const share = `explains ${Math.round(100 * explained)} % of what the rear sensor did.`;
  if (reading.grade === "not-resolvable")
    return `The recording does not tell how much oxygen the catalyst holds; the best fit ${share}`;
  if (airDoubt < sureAir)
    return `Fitted to everything recorded, the catalyst holds ${inWords(reading)} of oxygen; that ${share}`;
  const value = Math.max(asTaken.low, Math.min(best, asTaken.high));
  const held = inWords({ value, ...asTaken, unit: "g", grade: "measured" });
  return `The catalyst holds ${held} of oxygen, ${airTaken(study)}; that ${share}`;
}

/** What stands for the air flow that was not recorded. */
function airTaken({ isAirUnknown, litres }: StoreStudy): string {
  if (isAirUnknown)
    return "by a usual flow of light running, for no air flow was recorded nor anything that stands for it";
  return litres === null
    ? "by the air that an engine of usual size draws, for no air flow was recorded (a larger engine has a larger catalyst)"
    : `by the air that this engine of ${quantity(litres, "l")} draws, for no air flow was recorded`;
}
