// All dimensions of the stack, and the one being drawn.

import { type Component, createMemo, createSignal, For, Show } from "solid-js";
import { linesOf } from "../../drawing/layer.ts";
import type { Stage } from "../stage/stage.ts";
import type { DimensionLook, LaneStackProps } from "../stage/types.ts";
import { Dimension } from "./Dimension.tsx";
import { layOutDimensions } from "./dimension-layout.ts";

export const DimensionLayer: Component<{
  bench: LaneStackProps;
  stage: Stage;
  clip: string;
  draft: DimensionLook | null;
}> = (props) => {
  const [frequencies, setFrequencies] = createSignal<ReadonlySet<string>>(new Set());
  const toggle = (id: string) =>
    setFrequencies((before) => {
      const after = new Set(before);
      if (!after.delete(id)) after.add(id);
      return after;
    });
  const all = () => (props.draft ? [...props.bench.dimensions, props.draft] : props.bench.dimensions);
  const looks = createMemo(() => new Map(all().map((look) => [look.id, look])));
  const kept = (look: DimensionLook) =>
    look.isCursor || look.id === props.bench.selectedDimension || look === props.draft;
  const layout = createMemo(() => layOutDimensions(all(), props.stage, { frequencies: frequencies(), kept }));
  const laid = () => layout().laid;
  // Ids are equal strings from one state to the next, so a dimension that moves keeps its elements, and the focus.
  const ids = createMemo(() => [...laid().keys()]);
  const laneOf = (look: DimensionLook) => props.bench.lanes.find((lane) => lane.id === look.laneId);
  const windowsOf = (look: DimensionLook) =>
    linesOf(laneOf(look) ?? { layers: [] }).flatMap(({ channelId }) => props.bench.windows.get(channelId) ?? []);

  return (
    <>
      <For each={ids()}>
        {(id) => (
          <Show when={looks().has(id) && laid().has(id)}>
            <Dimension
              look={looks().get(id)!}
              laid={laid().get(id)!}
              stage={props.stage}
              unit={laneOf(looks().get(id)!)?.unit ?? ""}
              whole={props.bench.whole}
              windows={windowsOf(looks().get(id)!)}
              isSelected={props.bench.selectedDimension === id}
              clip={props.clip}
              onEvent={(event) => props.bench.onDimension(event)}
              onToggleFrequency={() => toggle(id)}
            />
          </Show>
        )}
      </For>
      <Show when={layout().left > 0}>
        <text class="dimension-left" x={props.stage.size().width / 2} y={18} text-anchor="middle">
          {layout().left} more dimensions in this view are not drawn: zoom in to see them.
        </text>
      </Show>
    </>
  );
};
