// All dimensions of the stack, and the one being drawn.

import { type Component, createMemo, createSignal, For, Show } from "solid-js";
import { linesOf } from "../../drawing/layer.ts";
import type { Stage } from "../stage/stage.ts";
import type { DimensionLook, LaneStackProps } from "../stage/types.ts";
import { Dimension, DimensionEnds } from "./Dimension.tsx";
import { headOf, layOutDimensions, takenIn } from "./dimension-layout.ts";
import type { DimensionProps } from "./dimension-props.ts";

export interface DimensionsShown {
  readonly bench: LaneStackProps;
  readonly stage: Stage;
  readonly draft: () => DimensionLook | null;
}

/** All dimensions as laid out, and which of them tell a frequency. */
export function createDimensions({ bench, stage, draft }: DimensionsShown) {
  const [frequencies, setFrequencies] = createSignal<ReadonlySet<string>>(new Set());
  const toggle = (id: string) =>
    setFrequencies((before) => {
      const after = new Set(before);
      if (!after.delete(id)) after.add(id);
      return after;
    });
  const all = createMemo(() => {
    const drawn = draft();
    return drawn ? [...bench.dimensions, drawn] : bench.dimensions;
  });
  const kept = (look: DimensionLook) => look.isCursor || look.id === bench.selectedDimension || look === draft();
  const linesIn = (laneId: string) =>
    linesOf(bench.lanes.find(({ id }) => id === laneId) ?? { layers: [] }).flatMap(
      ({ channelId }) => bench.windows.get(channelId) ?? [],
    );
  const layout = createMemo(() => layOutDimensions(all(), stage, { frequencies: frequencies(), kept, linesIn }));
  /** What of a lane's dimensions other words keep off. */
  const taken = (laneId: string) => [...takenIn(layout().laid, all(), laneId), ...headOf(laneId, stage)];
  return { all, layout, taken, linesIn, toggle };
}

export const DimensionLayer: Component<{
  bench: LaneStackProps;
  stage: Stage;
  clip: string;
  shown: ReturnType<typeof createDimensions>;
}> = (props) => {
  const looks = createMemo(() => new Map(props.shown.all().map((look) => [look.id, look])));
  const laid = () => props.shown.layout().laid;
  // Ids are equal strings from one state to the next, so a dimension that moves keeps its elements, and the focus.
  const ids = createMemo(() => [...laid().keys()]);
  const laneOf = (look: DimensionLook) => props.bench.lanes.find((lane) => lane.id === look.laneId);
  const Each: Component<{ readonly part: Component<DimensionProps> }> = ({ part: Part }) => (
    <For each={ids()}>
      {(id) => (
        <Show when={looks().has(id) && laid().has(id)}>
          <Part
            look={looks().get(id)!}
            laid={laid().get(id)!}
            stage={props.stage}
            unit={laneOf(looks().get(id)!)?.unit ?? ""}
            whole={props.bench.whole}
            windows={props.shown.linesIn(looks().get(id)!.laneId)}
            isSelected={props.bench.selectedDimension === id}
            clip={props.clip}
            onEvent={(event) => props.bench.onDimension(event)}
            onToggleFrequency={() => props.shown.toggle(id)}
          />
        </Show>
      )}
    </For>
  );

  return (
    <>
      <Each part={Dimension} />
      <Each part={DimensionEnds} />
      <Show when={props.shown.layout().left > 0}>
        <text class="dimension-left" x={props.stage.size().width / 2} y={18} text-anchor="middle">
          {props.shown.layout().left} more dimensions in this view are not drawn: zoom in to see them.
        </text>
      </Show>
    </>
  );
};
