// The lanes under each other with one time axis: traces on canvases, everything else drawn over them.

import { type Component, createMemo, createSignal, createUniqueId, For, onCleanup, onMount, Show } from "solid-js";
import { formatTime } from "../../signal/written/reading-text.ts";
import { DimensionLayer } from "../dimensions/DimensionLayer.tsx";
import { draftAim, draftBox, draftLook, draftSpan, tellDrawn } from "../hands/draft.ts";
import { type Draft, type Finger, listenForGestures } from "../hands/gestures.ts";
import { createColours } from "../stage/colours.ts";
import { axisHeight, gutter, margin } from "../stage/layout.ts";
import { createStage } from "../stage/stage.ts";
import type { LaneStackProps } from "../stage/types.ts";
import { InstantGrip } from "./InstantGrip.tsx";
import { Lane } from "./Lane.tsx";
import { Lit } from "./Lit.tsx";
import { Loupe } from "./Loupe.tsx";
import { Marks } from "./Marks.tsx";
import { Places } from "./Places.tsx";
import { Readouts } from "./Readouts.tsx";
import { SpanShade } from "./SpanShade.tsx";
import { TimeAxis } from "./TimeAxis.tsx";
import "../stage/plot.css";

/**
 * Fills its parent. Keys while it has the focus: arrows pan, + and - zoom, Home and End go to the ends, 0 shows all.
 * Dimensions and edges of a span in it are controls of their own.
 */
export const LaneStack: Component<LaneStackProps> = (props) => {
  let element!: HTMLDivElement;
  const clip = `plot-${createUniqueId()}`;
  const colours = createColours();
  const [draft, setDraft] = createSignal<Draft | null>(null);
  const [finger, setFinger] = createSignal<Finger | null>(null);
  const stage = createStage(props, () => element);
  // Ids are equal strings from one state to the next, so a lane that changes keeps its canvas.
  const laneIds = createMemo(() => props.lanes.map((lane) => lane.id));
  const lanes = createMemo(() => new Map(props.lanes.map((lane) => [lane.id, lane])));
  const drawn = createMemo(() => draftLook(draft(), props, stage));
  const shaded = () => draftSpan(draft(), props) ?? props.span;

  const loupe = () => {
    const [look, at] = [props.loupe, finger()];
    const lane = look && lanes().get(look.laneId);
    return look && at && lane && at.laneId === look.laneId ? { look, finger: at, lane } : null;
  };

  onMount(() => {
    const onDrawn = (draft: Draft, isTap: boolean) => tellDrawn({ draft, isTap }, props, stage);
    const onFinger = (next: Finger | null) => {
      if (next?.laneId !== finger()?.laneId) props.onFinger?.(next?.laneId ?? null);
      setFinger(next);
    };
    const onDraft = (next: Draft | null) => {
      setDraft(next);
      props.onAim?.(draftAim(next, props));
    };
    onCleanup(listenForGestures(element, props, stage, { onDraft, onDrawn, onFinger }));
  });

  return (
    <div
      class="lane-stack"
      classList={{ [`lane-stack-${props.tool}`]: true }}
      ref={element}
      role="application"
      tabindex="0"
      aria-label={`Traces, ${viewText(props, stage.secondsPerPixel())}. Arrow keys pan, plus and minus zoom, 0 shows all.`}
    >
      <For each={laneIds()}>
        {(id) => (
          <Show when={lanes().get(id)}>
            {(lane) => (
              <Lane
                lane={lane()}
                windows={props.windows}
                view={props.view}
                stage={stage}
                colours={colours()}
                tools={props.laneTools?.(id)}
              />
            )}
          </Show>
        )}
      </For>
      <svg class="lane-overlay" width={stage.size().width} height={stage.size().height}>
        <title>Measurements on the traces</title>
        <clipPath id={clip}>
          <rect
            x={gutter}
            y="0"
            width={Math.max(0, stage.size().width - gutter - margin)}
            height={Math.max(0, stage.size().height - axisHeight)}
          />
        </clipPath>
        <Show when={shaded()}>
          {(span) => (
            <SpanShade span={span()} whole={props.whole} stage={stage} clip={`url(#${clip})`} onSpan={props.onSpan} />
          )}
        </Show>
        <TimeAxis
          view={props.view}
          stage={stage}
          stretches={props.marks.stretches}
          flags={props.readouts.map((readout) => readout.time)}
        />
        <Places places={props.places ?? []} stage={stage} clip={`url(#${clip})`} />
        <Marks bench={props} stage={stage} clip={`url(#${clip})`} />
        <Readouts bench={props} stage={stage} />
        <Show when={props.tool === "pan" && (props.instant ?? null) !== null}>
          <InstantGrip bench={props} instant={props.instant!} stage={stage} />
        </Show>
        <DimensionLayer bench={props} stage={stage} clip={`url(#${clip})`} draft={drawn()} />
        <Lit spots={props.lit ?? []} stage={stage} />
        <Show when={draftBox(draft(), props, stage)}>
          {(box) => (
            <rect
              class="zoom-box"
              x={box().left}
              y={box().top}
              width={box().right - box().left}
              height={box().bottom - box().top}
            />
          )}
        </Show>
        <Show when={loupe()}>{(shown) => <Loupe {...shown()} stage={stage} />}</Show>
      </svg>
    </div>
  );
};

const viewText = ({ view }: LaneStackProps, step: number): string =>
  `${formatTime(view.from, step)} to ${formatTime(view.to, step)}`;
