// The few controls above the lanes.

import { type Component, createMemo, type JSX, Show } from "solid-js";
import { holdScales } from "../../job/edits/lanes.ts";
import type { Tool } from "../../plot/stage/types.ts";
import { useGround } from "../core/ground.ts";
import { useDimensions } from "../dimensions/dimensions.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import {
  LevelPairIcon,
  LiftOffIcon,
  NextIcon,
  PreviousIcon,
  RedoIcon,
  SpanIcon,
  TimePairIcon,
  UndoIcon,
} from "../parts/icons.tsx";

export const Toolbar: Component = () => {
  const { bench, view, span, setSpan } = useGround();
  const dimensions = useDimensions();
  const liftOffs = useLiftOffs();
  const isHeld = createMemo(() => bench.state().lanes.some((lane) => lane.scale !== "fit"));
  const hold = () => bench.edit((state) => holdScales(state, isHeld() ? "fit" : dimensions.scales()));
  const toggle = (tool: Tool) => dimensions.setTool(dimensions.tool() === tool ? "pan" : tool);
  return (
    <div class="toolbar" role="toolbar" aria-label="Bench">
      <button type="button" aria-pressed={isHeld()} title="Keep the lanes' scales as they are now" onClick={hold}>
        Hold scale
      </button>
      <button type="button" onClick={view.seeAll}>
        See all
      </button>
      <div class="group">
        <ToolButton name="Time pair" tool="time-pair" active={dimensions.tool()} onChoose={toggle}>
          <TimePairIcon />
        </ToolButton>
        <ToolButton name="Level pair" tool="level-pair" active={dimensions.tool()} onChoose={toggle}>
          <LevelPairIcon />
        </ToolButton>
        <ToolButton name="Choose a span" tool="span" active={dimensions.tool()} onChoose={toggle}>
          <SpanIcon />
        </ToolButton>
      </div>
      <Show when={hintOf(dimensions.tool(), liftOffs.placing() !== null)}>
        {(hint) => <span class="hint">{hint()}</span>}
      </Show>
      <Show when={span() && dimensions.tool() === "pan" && !liftOffs.placing()}>
        <button type="button" onClick={() => setSpan(null)}>
          Clear span
        </button>
      </Show>
      <span class="gap" />
      <div class="group">
        <button
          type="button"
          class="icon"
          aria-label="Undo"
          title="Undo"
          disabled={!bench.canUndo()}
          onClick={bench.undo}
        >
          <UndoIcon />
        </button>
        <button
          type="button"
          class="icon"
          aria-label="Redo"
          title="Redo"
          disabled={!bench.canRedo()}
          onClick={bench.redo}
        >
          <RedoIcon />
        </button>
      </div>
      <div class="group">
        <button
          type="button"
          class="icon"
          aria-label="Previous lift-off"
          title="Previous lift-off"
          disabled={liftOffs.list().length === 0}
          onClick={liftOffs.previous}
        >
          <PreviousIcon />
          <LiftOffIcon />
        </button>
        <button
          type="button"
          class="icon"
          aria-label="Next lift-off"
          title="Next lift-off"
          disabled={liftOffs.list().length === 0}
          onClick={liftOffs.next}
        >
          <LiftOffIcon />
          <NextIcon />
        </button>
      </div>
    </div>
  );
};

const ToolButton: Component<{
  readonly name: string;
  readonly tool: Tool;
  readonly active: Tool;
  readonly onChoose: (tool: Tool) => void;
  readonly children: JSX.Element;
}> = (props) => (
  <button
    type="button"
    class="icon"
    aria-label={props.name}
    title={props.name}
    aria-pressed={props.active === props.tool}
    onClick={() => props.onChoose(props.tool)}
  >
    {props.children}
  </button>
);

function hintOf(tool: Tool, placing: boolean): string | null {
  if (placing) return "Touch the front's fall";
  if (tool === "time-pair") return "Drag from one time to another";
  if (tool === "level-pair") return "Drag from one level to another";
  if (tool === "span") return "Drag over the span to measure";
  return null;
}
