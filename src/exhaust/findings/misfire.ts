// Unburnt air from a cylinder that missed shows at the front as a lean spike: it cuts a rich swing short.

import { type Crossings, findCrossings } from "../../signal/edges/crossings.ts";
import { proportionBounds } from "../../signal/numbers/proportion.ts";
import { usualStep } from "../../signal/series/usual-step.ts";
import { medianOfNumbers } from "../../signal/statistics/statistics.ts";
import type { Finding, Stretch } from "../terms/analysis.ts";
import { hysteresisFor, type Piece, pieceOf } from "../terms/edges.ts";
import { describeLimit, type Limits } from "../terms/limits.ts";
import { counted, sentence, stretchSpan } from "../terms/words.ts";
import { misfireCounts } from "./by-hand-steps.ts";
import { frontAgain } from "./record-again.ts";
import { type Draft, type FindingScene, finding, inStretch } from "./scene.ts";

export const misfireFinding = (scene: FindingScene): Finding => finding("misfire", draft(scene));

/** A rich swing is held against so many on either side: flow and the rear's loop make swings longer and shorter little by little. Own choice. */
const neighbours = 4;

interface RichSwings {
  readonly count: number;
  readonly cutShort: number;
}

function draft(scene: FindingScene): Draft {
  const { channels, limits } = scene;
  const dependsOn = [describeLimit("spikeShare", limits)];
  const cannot = (statement: string): Draft => ({
    verdict: "cannot-say",
    statement,
    next: [frontAgain.cruise, misfireCounts],
    dependsOn,
  });
  const stretches = judged(scene);
  const fronts = stretches.flatMap((stretch) => pieceOf(channels.front, stretch) ?? []);
  if (fronts.length === 0 || scene.measured.awake.front?.kind !== "narrow-band") {
    return cannot("No steady running with a switching front sensor was recorded, so lean spikes cannot be looked for.");
  }
  if (!fronts.every(({ series }) => usualStep(series.time) <= limits.spikeStep))
    return cannot("The samples are too far apart to see the short lean spikes of a misfire.");
  const swings = fronts
    .map((front) => richSwings(front, limits))
    .reduce((a, b) => ({ count: a.count + b.count, cutShort: a.cutShort + b.cutShort }));
  if (swings.count < limits.frontCycles) return cannot("Too few front cycles to look for lean spikes.");
  const [low, high] = proportionBounds(swings.cutShort, swings.count).map((share) => 100 * share) as [number, number];
  const broke = `${shareInWords(swings)} of the front sensor broke off early`;
  const told = `${broke} (${stretches.map(stretchSpan).join("; ")})`;
  // The place of the first stretch is said beside it.
  const says = stretches.length === 1 ? broke : `${broke} (${counted(stretches.length, "stretch", "stretches")})`;
  const why = [{ ...inStretch("rich swings cut short", stretches[0]!), says }];
  if (low > limits.spikeShare) {
    return {
      verdict: "points-to",
      statement: sentence(`${told}: that is what a cylinder that misfires now and then looks like`),
      for: why,
      next: [misfireCounts],
      dependsOn,
    };
  }
  if (high < 2 * limits.spikeShare)
    return { verdict: "points-away", statement: sentence(`${told}: no sign of misfire`), against: why, dependsOn };
  return { ...cannot(sentence(`${told}: that is not enough to tell`)), for: why };
}

/** Cruise, or steady running at unknown speed: all that is fit, else the longest. Idle shakes by itself. */
function judged({ measured }: FindingScene): Stretch[] {
  const usable = measured.stretches.filter(({ kind, fit }) => kind === "cruise" || (kind === "unsteady" && fit));
  const fit = usable.filter((one) => one.fit);
  return fit.length > 0 ? fit : [...usable].sort((a, b) => b.to - b.from - (a.to - a.from)).slice(0, 1);
}

/** "7 of 132 rich swings" */
const shareInWords = ({ count, cutShort }: RichSwings): string =>
  `${cutShort === 0 ? "none" : cutShort} of ${count} rich swings`;

/**
 * The loop turns the mixture when the front passes the switch level, and sees what comes of it only when the gas has come
 * from the valves: its swings last that long at least, and much as long as those about it. One that breaks off in little more than
 * half their time was ended by something else: air that did not burn. Ripple on an edge is no swing: it lies between passages of
 * `lowLevel`.
 */
function richSwings(front: Piece, limits: Limits): RichSwings {
  const { series, noise } = front;
  const hysteresis = hysteresisFor([front], limits);
  const crossings = findCrossings(series, { level: limits.switchLevel, hysteresis, noise });
  const swings: { readonly length: number; readonly isWhole: boolean }[] = [];
  for (let k = 1; k + 2 < crossings.times.length; k++) {
    if (crossings.rising[k] !== 1 || crossings.runs[k - 1] !== crossings.runs[k + 2]) continue;
    const isWhole = [k - 1, k + 1].every((fall) => lowestAfter(front, crossings, fall) < limits.lowLevel);
    swings.push({ length: crossings.times[k + 1]! - crossings.times[k]!, isWhole });
  }
  const lengths = swings.map(({ length }) => length);
  const usual = lengths.map((_, k) => medianOfNumbers(lengths.slice(Math.max(0, k - neighbours), k + neighbours + 1)));
  const isCut = ({ length, isWhole }: (typeof swings)[number], k: number) =>
    isWhole && length < (limits.spikeLength / 100) * usual[k]!;
  return { count: swings.length, cutShort: swings.filter(isCut).length };
}

/** Lowest sample from crossing k to the next. */
function lowestAfter({ series }: Piece, { indices }: Crossings, k: number): number {
  let lowest = Infinity;
  for (let i = indices[k]!; i < indices[k + 1]!; i++) lowest = Math.min(lowest, series.samples[i]!);
  return lowest;
}
