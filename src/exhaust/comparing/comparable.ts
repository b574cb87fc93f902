// What a comparison must know of one recording, taken where its samples are.

import type { Capture, Channel } from "../../capture/model/capture.ts";
import { medianOf } from "../../signal/combining/combine.ts";
import { measured, notResolvable, type Reading, type Unit } from "../../signal/numbers/reading.ts";
import { within } from "../../signal/series/reel.ts";
import { describeTimeBase } from "../../signal/stamps/time-base.ts";
import { percentiles } from "../../signal/statistics/statistics.ts";
import { type SidesScene, sidesIn } from "../activity/judged-stretches.ts";
import { switchingOnly } from "../activity/pair.ts";
import type { Analysis, Awakening, Span, Stretch } from "../terms/analysis.ts";
import { type BankChannels, channelsOf } from "../terms/channels.ts";
import { type LimitOverrides, limitsInForce } from "../terms/limits.ts";
import { anew, type Recall } from "../terms/remembered.ts";
import type { Comparable, ComparedStretch, RecordedSensor } from "./comparison.ts";

/**
 * Pure.
 *
 * @param analysis  of the same capture, made with the same limits.
 * @param recall    the memory that the analysis was made with: what it measured of a stretch is not measured again.
 */
export function comparableOf(
  capture: Capture,
  analysis: Analysis,
  overrides: LimitOverrides = {},
  recall: Recall = anew,
): Comparable {
  const limits = limitsInForce(overrides);
  const channels = channelsOf(capture, analysis.bank);
  const switching = switchingOnly(channels);
  const stretches = analysis.stretches.filter(({ fit }) => fit);
  const catalyst = analysis.findings.find(({ id }) => id === "catalyst");
  const spans: Span[] = [...stretches, ...countingLiftOffs(analysis).map(({ at }) => ({ from: at - 2, to: at + 4 }))];
  return {
    name: capture.name,
    bank: analysis.bank,
    front: recorded(channels.front ?? channels.frontLambda, analysis.awake.front),
    rear: recorded(channels.rear, analysis.awake.rear),
    warmth: analysis.warmth.told,
    coolant: levelOver(channels.coolant, spans, "degC"),
    catalystTemperature: levelOver(channels.catalystTemperature, spans, "degC"),
    liftOffs: countingLiftOffs(analysis).map(
      ({ id, at, frontFall, delay, storedOxygen, richAgain, rearSwitch, airFlow, engineSpeed, fuelCut }) => ({
        ...{ id, at, frontFall, delay, storedOxygen, richAgain, rearSwitch, airFlow, engineSpeed, fuelCut },
      }),
    ),
    stretches: stretches.map((stretch) => stretchOf(stretch, channels, { channels: switching, limits, recall })),
    finding: catalyst ? { verdict: catalyst.verdict, statement: catalyst.statement } : null,
  };
}

const countingLiftOffs = ({ liftOffs }: Analysis) =>
  liftOffs.filter((one) => one.setAside === null && one.delay.grade !== "not-resolvable");

function recorded(channel: Channel | null, awake: Awakening | null): RecordedSensor | null {
  if (!channel) return null;
  const rate = describeTimeBase(channel.series).rate.value;
  const woke = awake?.leftBias ?? notResolvable("s", "The sensor was not seen to wake.");
  return { kind: awake?.kind ?? "unknown", rate, polled: channel.polled, woke };
}

function stretchOf(stretch: Stretch, channels: BankChannels, scene: SidesScene): ComparedStretch {
  const span = { from: stretch.from, to: stretch.to };
  const { front, rear } = sidesIn(scene, span);
  return {
    ...span,
    kind: stretch.kind,
    engineSpeed: meanOver(channels.engineSpeed, span),
    airFlow: meanOver(channels.airFlow, span),
    activity: stretch.activity,
    front: front?.sensor ?? null,
    rear: rear?.sensor ?? null,
  };
}

function meanOver(channel: Channel | null, span: Span): number | null {
  if (!channel) return null;
  let sum = 0;
  let count = 0;
  for (const value of within(channel.series, span.from, span.to).samples) {
    if (!Number.isFinite(value)) continue;
    sum += value;
    count++;
  }
  return count === 0 ? null : sum / count;
}

/** Middle and 5-95 % range over the spans where it was measured: the middle of each, then over all. */
function levelOver(channel: Channel | null, spans: readonly Span[], unit: Unit): Reading | null {
  if (!channel) return null;
  const levels = spans.flatMap((span): Reading[] => {
    const [low, middle, high] = percentiles(within(channel.series, span.from, span.to).samples, [0.05, 0.5, 0.95]);
    return Number.isFinite(middle) ? [measured(middle!, [low!, high!], unit)] : [];
  });
  return levels.length === 0 ? null : medianOf(levels, unit);
}
