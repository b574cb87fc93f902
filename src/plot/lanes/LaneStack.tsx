// The lanes under each other with one time axis: traces on canvases, everything else drawn over them.

import { type Component, createMemo, createSignal, For, onCleanup, onMount, Show } from "solid-js";
import { formatTime } from "../../signal/written/reading-text.ts";
import { draftAim, tellDrawn } from "../hands/draft.ts";
import { type Draft, type Finger, listenForGestures } from "../hands/gestures.ts";
import { createColours } from "../stage/colours.ts";
import { createStage, type Stage } from "../stage/stage.ts";
import type { LaneStackProps } from "../stage/types.ts";
import { Lane } from "./Lane.tsx";
import { Overlay } from "./Overlay.tsx";
import "../stage/plot.css";

/**
 * Fills its parent. Keys while it has the focus: arrows pan, + and - zoom, Home and End go to the ends, 0 shows all.
 * Dimensions and edges of a span in it are controls of their own.
 */
export const LaneStack: Component<LaneStackProps> = (props) => {
  let element!: HTMLDivElement;
  const colours = createColours();
  const stage = createStage(props, () => element);
  const { draft, finger } = createHands(props, stage, () => element);
  // Ids are equal strings from one state to the next, so a lane that changes keeps its canvas.
  const laneIds = createMemo(() => props.lanes.map((lane) => lane.id));
  const lanes = createMemo(() => new Map(props.lanes.map((lane) => [lane.id, lane])));
  const loupe = () => {
    const [look, at] = [props.loupe, finger()];
    const lane = look && lanes().get(look.laneId);
    return look && at && lane && at.laneId === look.laneId ? { look, finger: at, lane } : null;
  };
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
      <Overlay bench={props} stage={stage} draft={draft()} loupe={loupe()} />
    </div>
  );
};

/** What is being drawn by hand, and where a finger reads. */
function createHands(props: LaneStackProps, stage: Stage, element: () => HTMLElement) {
  const [draft, setDraft] = createSignal<Draft | null>(null);
  const [finger, setFinger] = createSignal<Finger | null>(null);
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
    onCleanup(listenForGestures(element(), props, stage, { onDraft, onDrawn, onFinger }));
  });
  return { draft, finger };
}

const viewText = ({ view }: LaneStackProps, step: number): string =>
  `${formatTime(view.from, step)} to ${formatTime(view.to, step)}`;
