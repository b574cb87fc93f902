// The healthy trace as a layer behind the recorded rear: a grey band, and the car as fitted as a thin line.

import { type BandLayer, type LineLayer, linesOf } from "../../drawing/layer.ts";
import type { HealthyTrace } from "../../exhaust/store/healthy.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { Ground } from "../core/ground.ts";
import type { LayerKind, Windows } from "../lanes/layers.ts";
import { cutTo } from "./cut.ts";
import { grams, type Healthy } from "./healthy.ts";

/** The word its layers come from; a paper may leave them out by it. */
export const healthySource = "healthy";
const fittedId = "healthy fitted";
/** Columns that a view is cut to: as many as a wide screen has. */
const columns = 2000;

export function createHealthyLayer({ summary, bench, view }: Ground, healthy: Healthy): LayerKind {
  const rearId = () => summary()?.channels.find((c) => c.role === "rear-o2" && c.bank === bench.state().bank)?.id;
  /** For the paper that is being laid. */
  let brought: HealthyTrace | null = null;
  const fittedIn = (trace: HealthyTrace | null, span: Span, width: number): Windows =>
    trace ? [{ channelId: fittedId, ...cutTo(trace, span, width).fitted }] : [];
  return {
    windows: () => fittedIn(healthy.trace(), view.view(), columns),
    async windowsOver({ span, width, isOffered }) {
      brought = isOffered || healthy.isShown() ? await healthy.bring() : null;
      return fittedIn(brought, span, width);
    },
    lay(lanes, { span, paper }) {
      const trace = paper ? brought : healthy.trace();
      const id = rearId();
      if (!trace || id === undefined) return lanes;
      const isRears = (lane: LaneLook) => lane.unit === "V" && linesOf(lane).some((line) => line.channelId === id);
      const layers = [bandOf(trace, span(), paper?.width ?? columns), fittedLine(healthy)];
      return lanes.map((lane) => (isRears(lane) ? { ...lane, layers: [...lane.layers, ...layers] } : lane));
    },
  };
}

function bandOf(trace: HealthyTrace, span: Span, width: number): BandLayer {
  const { times, low, high } = cutTo(trace, span, width);
  return {
    form: "band",
    source: healthySource,
    label: "Sound catalyst",
    look: "other",
    fill: "grey",
    times,
    low,
    high,
  };
}

const fittedLine = ({ study }: Healthy): LineLayer => ({
  form: "line",
  source: healthySource,
  channelId: fittedId,
  label: `Fitted: ${grams(study()?.best.guess.store ?? 0)}`,
  unit: "V",
  look: "other",
  isThin: true,
});
