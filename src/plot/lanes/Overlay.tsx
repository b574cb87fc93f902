// Everything that is drawn over the traces of all lanes: one SVG, in the order in which things cover each other.

import { type Component, createMemo, createUniqueId, Show } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import { createDimensions, DimensionLayer } from "../dimensions/DimensionLayer.tsx";
import { draftBox, draftLook, draftSpan } from "../hands/draft.ts";
import type { Draft, Finger } from "../hands/gestures.ts";
import { axisHeight, gutter, margin } from "../stage/layout.ts";
import type { Stage } from "../stage/stage.ts";
import type { LaneLook, LaneStackProps, LoupeLook } from "../stage/types.ts";
import { InstantGrip } from "./InstantGrip.tsx";
import { Lit } from "./Lit.tsx";
import { Loupe } from "./Loupe.tsx";
import { Marks } from "./Marks.tsx";
import { Places } from "./Places.tsx";
import { Readouts } from "./Readouts.tsx";
import { SpanShade } from "./SpanShade.tsx";
import { TimeAxis } from "./TimeAxis.tsx";

interface OverlayProps {
  readonly bench: LaneStackProps;
  readonly stage: Stage;
  /** What is being drawn by hand. */
  readonly draft: Draft | null;
  readonly loupe: { readonly look: LoupeLook; readonly finger: Finger; readonly lane: LaneLook } | null;
}

export const Overlay: Component<OverlayProps> = (props) => {
  const clipId = `plot-${createUniqueId()}`;
  const clip = `url(#${clipId})`;
  const drawn = createMemo(() => draftLook(props.draft, props.bench, props.stage));
  const dimensions = createDimensions({ bench: props.bench, stage: props.stage, draft: drawn });
  const shaded = () => draftSpan(props.draft, props.bench) ?? props.bench.span;
  const size = () => props.stage.size();
  return (
    <svg class="lane-overlay" width={size().width} height={size().height}>
      <title>Measurements on the traces</title>
      <clipPath id={clipId}>
        <rect
          x={gutter}
          y="0"
          width={Math.max(0, size().width - gutter - margin)}
          height={Math.max(0, size().height - axisHeight)}
        />
      </clipPath>
      <Show when={shaded()}>
        {(span) => (
          <SpanShade
            span={span()}
            whole={props.bench.whole}
            stage={props.stage}
            clip={clip}
            onSpan={props.bench.onSpan}
          />
        )}
      </Show>
      <TimeAxis
        view={props.bench.view}
        stage={props.stage}
        stretches={props.bench.marks.stretches}
        flags={props.bench.readouts.map((readout) => readout.time)}
      />
      <Places places={props.bench.places ?? []} stage={props.stage} clip={clip} />
      <Marks bench={props.bench} stage={props.stage} clip={clip} />
      <Readouts bench={props.bench} stage={props.stage} taken={dimensions.taken} />
      <Show when={props.bench.tool === "pan" && (props.bench.instant ?? null) !== null}>
        <InstantGrip bench={props.bench} instant={props.bench.instant!} stage={props.stage} />
      </Show>
      <DimensionLayer bench={props.bench} stage={props.stage} clip={clip} shown={dimensions} />
      <Lit spots={props.bench.lit ?? []} stage={props.stage} />
      <Show when={draftBox(props.draft, props.bench, props.stage)}>{(box) => <ZoomBox box={box()} />}</Show>
      <Show when={props.loupe}>{(shown) => <Loupe {...shown()} stage={props.stage} />}</Show>
    </svg>
  );
};

/** What is to fill the view. */
const ZoomBox: Component<{ readonly box: Box }> = (props) => (
  <rect
    class="zoom-box"
    x={props.box.left}
    y={props.box.top}
    width={props.box.right - props.box.left}
    height={props.box.bottom - props.box.top}
  />
);
