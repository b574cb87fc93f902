// Has this recording been where the code was stored? For each quantity of the freeze frame, and for all of them at once.

import { measureSides, switchingOnly } from "../activity/pair.ts";
import type { Span } from "../terms/analysis.ts";
import { type CellGrid, heldInCells } from "../terms/cell-grid.ts";
import type { BankChannels } from "../terms/channels.ts";
import {
  type FrameConditions,
  type FrameQuantity,
  frameQuantities,
  type RearThere,
  type Visited,
  type VisitedQuantity,
} from "../terms/conditions.ts";
import type { Limits } from "../terms/limits.ts";

export interface VisitScene {
  readonly channels: BankChannels;
  readonly span: Span;
  readonly limits: Limits;
}

/** Cells of s; conditions do not change faster than that. */
const cellStep = 0.25;

/**
 * Stretches in which each quantity lay within its tolerance of the frame, and those in which all recorded ones did at once. A
 * quantity that was not recorded stands aside, named so: it is neither held for nor against.
 *
 * @returns null where the frame names no quantity that could be recorded.
 */
export function visitedOf(frame: FrameConditions, { channels, span, limits }: VisitScene): Visited | null {
  const wanted = frameQuantities.filter((quantity) => frame[quantity] !== undefined);
  if (wanted.length === 0) return null;
  const count = Math.max(1, Math.min(2_000_000, Math.ceil((span.to - span.from) / cellStep)));
  const grid: CellGrid = { from: span.from, step: cellStep, count };
  const all = wanted.map((quantity) => looked(quantity, frame[quantity]!, { channels, span, limits }, grid));
  const recorded = all.filter(({ inside }) => inside !== null);
  const atOnce = new Uint8Array(count).map((_, i) => (recorded.every(({ inside }) => inside![i] === 1) ? 1 : 0));
  const together = recorded.length > 0 ? spansOf(atOnce, grid, span, limits.frameLeast) : [];
  return {
    quantities: all.map(({ told }) => told),
    together,
    total: lengthOf(together),
    rear: together.length > 0 ? rearIn(longest(together), { channels, span, limits }) : null,
  };
}

/** The quantities that a frame names, with their units. */
export const wantedOf = (frame: FrameConditions): Pick<VisitedQuantity, "quantity" | "wanted" | "unit">[] =>
  frameQuantities.flatMap((quantity) => {
    const wanted = frame[quantity];
    return wanted === undefined ? [] : [{ quantity, wanted, unit: rules[quantity].unit }];
  });

interface Looked {
  readonly told: VisitedQuantity;
  /** 1 in cells within the tolerance; null where it was not recorded. */
  readonly inside: Uint8Array | null;
}

function looked(
  quantity: FrameQuantity,
  wanted: number,
  { channels, span, limits }: VisitScene,
  grid: CellGrid,
): Looked {
  const rule = rules[quantity];
  const tolerance = rule.tolerance(wanted, limits);
  const channel = rule.channel(channels);
  const about = { quantity, wanted, tolerance, unit: rule.unit };
  if (!channel) {
    return { told: { ...about, told: "not-recorded", spans: [], total: 0, nearest: null }, inside: null };
  }
  const cells = heldInCells(channel.series, grid);
  const inside = Uint8Array.from(cells, (value) => (Math.abs(value - wanted) <= tolerance ? 1 : 0));
  const spans = spansOf(inside, grid, span, limits.frameLeast);
  const told = spans.length > 0 ? "visited" : "not-visited";
  return { told: { ...about, told, spans, total: lengthOf(spans), nearest: nearestOf(cells, wanted) }, inside };
}

interface Rule {
  readonly unit: string;
  channel(channels: BankChannels): BankChannels["engineSpeed"];
  tolerance(wanted: number, limits: Limits): number;
}

const rules: Readonly<Record<FrameQuantity, Rule>> = {
  "engine-speed": { unit: "1/min", channel: (c) => c.engineSpeed, tolerance: (_, l) => l.frameSpeed },
  "road-speed": { unit: "km/h", channel: (c) => c.roadSpeed, tolerance: (_, l) => l.frameRoadSpeed },
  "engine-load": { unit: "%", channel: (c) => c.load, tolerance: (wanted, l) => (wanted * l.frameLoad) / 100 },
  "air-flow": { unit: "g/s", channel: (c) => c.airFlow, tolerance: (wanted, l) => (wanted * l.frameLoad) / 100 },
  "manifold-pressure": {
    unit: "kPa",
    channel: (c) => c.manifoldPressure,
    tolerance: (wanted, l) => (wanted * l.frameLoad) / 100,
  },
  throttle: { unit: "%", channel: (c) => c.throttle, tolerance: (_, l) => l.frameThrottle },
  "coolant-temp": { unit: "degC", channel: (c) => c.coolant, tolerance: (_, l) => l.fairCoolant },
  "catalyst-temp": { unit: "degC", channel: (c) => c.catalystTemperature, tolerance: (_, l) => l.fairCatalyst },
  "fuel-status": { unit: "1", channel: (c) => c.fuelStatus, tolerance: () => 0.25 },
};

/** Runs of ones that last for `least` s or more. */
function spansOf(inside: Uint8Array, { from, step }: CellGrid, whole: Span, least: number): Span[] {
  const spans: Span[] = [];
  let begin = -1;
  for (let i = 0; i <= inside.length; i++) {
    if (inside[i] === 1 && begin < 0) begin = i;
    if (inside[i] === 1 || begin < 0) continue;
    if ((i - begin) * step >= least) spans.push({ from: from + begin * step, to: Math.min(whole.to, from + i * step) });
    begin = -1;
  }
  return spans;
}

function nearestOf(cells: Float64Array, wanted: number): number | null {
  let nearest: number | null = null;
  for (const value of cells) {
    if (Number.isNaN(value)) continue;
    if (nearest === null || Math.abs(value - wanted) < Math.abs(nearest - wanted)) nearest = value;
  }
  return nearest;
}

const lengthOf = (spans: readonly Span[]): number => spans.reduce((sum, { from, to }) => sum + to - from, 0);
const longest = (spans: readonly Span[]): Span =>
  spans.reduce((best, one) => (one.to - one.from > best.to - best.from ? one : best));

function rearIn(span: Span, { channels, limits }: VisitScene): RearThere {
  const { rear, activity } = measureSides(switchingOnly(channels), { span, limits, leastCycles: 1 });
  return {
    span,
    swing: rear?.measured.sensor.amplitude ?? null,
    amplitudeRatio: activity?.amplitudeRatio ?? null,
    crossingRatio: activity?.crossingRatio ?? null,
  };
}
