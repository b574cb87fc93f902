// Front and rear side by side over one span: what the bench shows, and what the findings rest on.

import type { AnyChannel, Bank } from "../../capture/model/capture.ts";
import { ratio } from "../../signal/combining/combine.ts";
import { amplitudeOf } from "../../signal/levels/levels.ts";
import { kindOf } from "../sensors/awake.ts";
import { mayBeLocked } from "../sensors/folding.ts";
import { countRoughly, measureSensor, type SensorMeasured } from "../sensors/sensor.ts";
import type { Activity, Evidence, EvidenceKey, EvidenceTable, Span, SpanReadings } from "../terms/analysis.ts";
import { type BankChannels, channelsOf } from "../terms/channels.ts";
import { cyclesIn, hysteresisFor, pieceOf, type Sensed } from "../terms/edges.ts";
import { type Limits, limitsInForce } from "../terms/limits.ts";
import { type ActivityRule, crossingRatioOf, measureActivity, type Side } from "./activity.ts";
import { whyApart } from "./together.ts";

export interface PairMeasured {
  readonly front: Side | null;
  readonly rear: Side | null;
  readonly activity: Activity | null;
}

/** The sensors of one bank that are compared. */
export type Sensors = Pick<BankChannels<Sensed>, "front" | "rear">;

export interface PairRule {
  readonly span: Span;
  readonly limits: Limits;
  /** Fewer full front cycles than this are not compared. */
  readonly leastCycles: number;
  /** Told roughly how much is done, 0 … 1. */
  readonly onShare?: ((share: number) => void) | undefined;
}

/**
 * Both sensors of a bank over a span, measured with the same hysteresis.
 *
 * @param sensors  after `switchingOnly`: the levels of a zirconia sensor are applied to front and rear.
 */
export function measureSides(sensors: Sensors, wanted: PairRule): PairMeasured {
  const { pieces, rule } = piecesOf(sensors, wanted);
  const front = pieces.front && { piece: pieces.front, measured: measureSensor(pieces.front, rule) };
  wanted.onShare?.(0.3);
  // Where the samples keep no step with the front, they keep none with a rear that may follow it.
  const inStep = front ? { isLocked: mayBeLocked(front.measured.sensor, wanted.limits) } : {};
  const rear = pieces.rear && { piece: pieces.rear, measured: measureSensor(pieces.rear, { ...rule, ...inStep }) };
  wanted.onShare?.(0.6);
  return { front, rear, activity: front && rear ? measureActivity(front, rear, rule) : null };
}

/** What was measured, without the samples that it was measured on. */
export interface SidesMeasured {
  readonly front: SensorMeasured | null;
  readonly rear: SensorMeasured | null;
  readonly activity: Activity | null;
}

export const measuredOf = ({ front, rear, activity }: PairMeasured): SidesMeasured => ({
  front: front?.measured ?? null,
  rear: rear?.measured ?? null,
  activity,
});

/** How far the rear follows the front, at a glance: a small part of `measureSides` in a small part of its time. */
export interface Swing extends Pick<Activity, "crossingRatio" | "amplitudeRatio"> {
  /** Full front cycles in the span. */
  readonly cycles: number;
}

/** @returns null where one of the sensors has no samples in the span, or they were not recorded together. */
export function measureSwing(channels: BankChannels, wanted: PairRule): Swing | null {
  const { pieces, rule } = piecesOf(channels, wanted);
  const { front, rear } = pieces;
  if (!front || !rear || whyApart(front.series, rear.series) !== null) return null;
  const [ofFront, ofRear] = [countRoughly(front, rule), countRoughly(rear, rule)];
  return {
    crossingRatio: crossingRatioOf(ofFront, ofRear, rule),
    amplitudeRatio: ratio(amplitudeOf(rear.series, rear), amplitudeOf(front.series, front)),
    cycles: cyclesIn(ofFront.crossings),
  };
}

function piecesOf(channels: Sensors, { span, limits, leastCycles }: PairRule) {
  const pieces = { front: pieceOf(channels.front, span), rear: pieceOf(channels.rear, span) };
  const hysteresis = hysteresisFor([pieces.front, pieces.rear], limits);
  return { pieces, rule: { span, limits, leastCycles, hysteresis } satisfies ActivityRule };
}

/** Without sensors of another kind: what is measured on a switching sensor would mean nothing there. */
export const switchingOnly = <C extends AnyChannel>(channels: BankChannels<C>): BankChannels<C> => ({
  ...channels,
  front: switching(channels.front),
  rear: switching(channels.rear),
});

/** A channel to which the levels of a zirconia sensor apply; one too flat to tell is measured all the same. */
function switching<C extends AnyChannel>(channel: C | null): C | null {
  if (!channel) return null;
  const kind = kindOf(channel);
  return kind === "narrow-band" || kind === "unknown" ? channel : null;
}

/** Readings of one bank over a span chosen by hand, with the evidence behind each. Channels need not be in memory. */
export function measurePair(
  capture: { readonly channels: readonly AnyChannel[] },
  bank: Bank,
  span: Span,
  limits: Limits = limitsInForce(),
): SpanReadings {
  const channels = switchingOnly(channelsOf(capture, bank));
  const { front, rear, activity } = measureSides(channels, { span, limits, leastCycles: 1 });
  const sensors = { front: front?.measured.sensor ?? null, rear: rear?.measured.sensor ?? null };
  const evidence: EvidenceTable = {
    ...named("front", front?.measured),
    ...named("rear", rear?.measured),
    ...(activity && front && rear ? behindActivity(front, rear, span) : {}),
  };
  return { span, sensors, activity, evidence };
}

function named(side: "front" | "rear", found: SensorMeasured | undefined): EvidenceTable {
  const entries = Object.entries(found?.evidence ?? {}).map(([name, evidence]) => [`${side}.${name}`, evidence]);
  return Object.fromEntries(entries) as EvidenceTable;
}

function behindActivity(front: Side, rear: Side, span: Span): EvidenceTable {
  const of = (name: "crossings" | "amplitude") => {
    const both = [front.measured.evidence[name], rear.measured.evidence[name]];
    const count = both.reduce((sum, one) => sum + (one?.count ?? 0), 0);
    return { span, levels: both[0]?.levels ?? [], marks: both.flatMap((one) => one?.marks ?? []), count };
  };
  const whole: Evidence = { span, levels: [], marks: [], count: 0 };
  const table: Partial<Record<EvidenceKey, Evidence>> = {
    "activity.crossingRatio": of("crossings"),
    "activity.amplitudeRatio": of("amplitude"),
    "activity.ownLevelRatio": whole,
    "activity.lengthRatio": whole,
    "activity.bandRatio": whole,
    "activity.lag": of("crossings"),
    "activity.correlation": whole,
  };
  return table;
}
