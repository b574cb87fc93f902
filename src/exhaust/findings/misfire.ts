// Unburnt air from a cylinder that missed shows at the front as short lean spikes between its ordinary swings.

import { findCrossings } from "../../signal/crossings.ts";
import { proportionBounds } from "../../signal/proportion.ts";
import { medianOfNumbers } from "../../signal/statistics.ts";
import { findTransitions } from "../../signal/transitions.ts";
import { usualStep } from "../../signal/usual-step.ts";
import type { Finding, Stretch } from "../analysis.ts";
import { hysteresisFor, pieceOf } from "../edges.ts";
import { describeLimit, type Limits } from "../limits.ts";
import { counted, sentence, stretchSpan } from "../words.ts";
import { type Draft, type FindingScene, finding, inStretch } from "./scene.ts";

export const misfireFinding = (scene: FindingScene): Finding => finding("misfire", draft(scene));

/** Samples farther apart than this, s, step over a spike of one firing. */
const coarsest = 0.01;
/** A spike is shorter than this, s, and than this share of an ordinary lean half-cycle. Own choice. */
const longestSpike = 0.12;
const shareOfHalfCycle = 0.35;
const counts =
  "Read the misfire codes and counters. A misfire is cured before anything is said about the catalyst, which it may have damaged.";

interface Spikes {
  readonly count: number;
  /** Spikes and ordinary rises together. */
  readonly events: number;
}

function draft(scene: FindingScene): Draft {
  const { channels, limits } = scene;
  const dependsOn = [describeLimit("spikeShare", limits)];
  const cannot = (statement: string): Draft => ({
    verdict: "cannot-say",
    statement,
    next: ["Record the front sensor at cruise for 60 s at 200 samples/s or more.", counts],
    dependsOn,
  });
  const stretch = longestJudged(scene);
  const front = stretch && pieceOf(channels.front, stretch);
  if (!front || scene.measured.awake.front?.kind !== "narrow-band") {
    return cannot("No steady running with a switching front sensor was recorded, so lean spikes cannot be looked for.");
  }
  if (!(usualStep(front.series.time) <= coarsest))
    return cannot("The samples are too far apart to see the short lean spikes of a misfire.");
  const { count, events } = spikesIn(front, limits);
  if (events < limits.frontCycles) return cannot("Too few front cycles to look for lean spikes.");
  const [low, high] = proportionBounds(count, events).map((share) => 100 * share) as [number, number];
  const told = `${counted(count, "short lean spike")} among ${events} times the front sensor turned rich (${stretchSpan(stretch)})`;
  const why = [{ reading: inStretch("lean spikes", stretch), says: told }];
  if (low > limits.spikeShare) {
    return {
      verdict: "points-to",
      statement: sentence(`${told}: this looks like a cylinder that misfires now and then`),
      for: why,
      next: [counts],
      dependsOn,
    };
  }
  if (high < 2 * limits.spikeShare)
    return { verdict: "points-away", statement: sentence(`${told}: no sign of misfire`), against: why, dependsOn };
  return { ...cannot(sentence(`${told}: not clear`)), for: why };
}

/** Cruise, or steady running at unknown speed; idle shakes by itself. */
function longestJudged({ measured }: FindingScene): Stretch | null {
  const usable = measured.stretches.filter(({ kind, fit }) => kind === "cruise" || (kind === "unsteady" && fit));
  return usable.reduce<Stretch | null>(
    (best, one) => (!best || one.to - one.from > best.to - best.from ? one : best),
    null,
  );
}

/** Rises that turned back on the way, and dips out of rich much shorter than a half-cycle. */
function spikesIn(front: NonNullable<ReturnType<typeof pieceOf>>, limits: Limits): Spikes {
  const { series, noise } = front;
  const rises = findTransitions(series, { from: limits.lowLevel, to: limits.highLevel, noise });
  const hysteresis = hysteresisFor([front], limits);
  const { times, rising, runs } = findCrossings(series, { level: limits.highLevel, hysteresis, noise });
  const below: number[] = [];
  for (let k = 1; k < times.length; k++) {
    if (rising[k] === 1 && runs[k] === runs[k - 1]) below.push(times[k]! - times[k - 1]!);
  }
  const most = Math.min(longestSpike, shareOfHalfCycle * medianOfNumbers(below));
  const dips = below.filter((time) => time < most).length;
  const count = rises.partial + dips;
  return { count, events: count + rises.durations.length + rises.ragged };
}
