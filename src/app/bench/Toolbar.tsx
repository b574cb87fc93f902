// The few controls above the lanes: tools at the left, ways of moving about at the right. Where they find no room in one row
// they take two.

import { type Component, createMemo, type JSX, Show } from "solid-js";
import { holdScales } from "../../job/edits/lanes.ts";
import type { Tool } from "../../plot/stage/types.ts";
import { ReferenceTools } from "../comparing/OnThePlot.tsx";
import { useGround } from "../core/ground.ts";
import { useDimensions } from "../dimensions/dimensions.ts";
import { GoTo } from "../going/GoTo.tsx";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import {
  BackIcon,
  BoxIcon,
  ForwardIcon,
  LevelPairIcon,
  MinusIcon,
  NextLiftOffIcon,
  PlusIcon,
  PreviousLiftOffIcon,
  RedoIcon,
  SpanIcon,
  TimePairIcon,
  UndoIcon,
} from "../parts/icons.tsx";
import { useInstants } from "../reading-out/instants.ts";

export const Toolbar: Component = () => (
  <div class="toolbar" role="toolbar" aria-label="Bench">
    <Tools />
    <Scales />
    <Steps />
    <ReferenceTools />
    <span class="gap" />
    <Moves />
  </div>
);

const Tools: Component = () => {
  const dimensions = useDimensions();
  return (
    <div class="group">
      <ToolButton name="Time pair" word="Time" tool="time-pair">
        <TimePairIcon />
      </ToolButton>
      <ToolButton name="Level pair" word="Level" tool="level-pair">
        <LevelPairIcon />
      </ToolButton>
      <ToolButton name="Choose a span" word="Span" tool="span">
        <SpanIcon />
      </ToolButton>
      <Show when={dimensions.tool() !== "pan"}>
        <span class="visually-hidden" role="status">
          {hintOf(dimensions.tool(), false)}
        </span>
      </Show>
    </div>
  );
};

const Scales: Component = () => {
  const { bench } = useGround();
  const dimensions = useDimensions();
  const isHeld = createMemo(() => bench.state().lanes.some((lane) => lane.scale !== "fit"));
  const hold = () => bench.edit((state) => holdScales(state, isHeld() ? "fit" : dimensions.scales()));
  return (
    <button type="button" aria-pressed={isHeld()} title="Keep the lanes' scales as they are now" onClick={hold}>
      Hold scale
    </button>
  );
};

const Steps: Component = () => {
  const { bench } = useGround();
  return (
    <div class="group">
      <IconButton name="Undo" disabled={!bench.canUndo()} onPress={bench.undo}>
        <UndoIcon />
      </IconButton>
      <IconButton name="Redo" disabled={!bench.canRedo()} onPress={bench.redo}>
        <RedoIcon />
      </IconButton>
    </div>
  );
};

const Moves: Component = () => {
  const { view } = useGround();
  const dimensions = useDimensions();
  const instants = useInstants();
  const liftOffs = useLiftOffs();
  const isBox = () => dimensions.tool() === "box";
  const has = () => liftOffs.list().length > 0;
  return (
    <div class="moves">
      <div class="group">
        <IconButton name="View before" disabled={!view.canBack()} onPress={view.back}>
          <BackIcon />
        </IconButton>
        <IconButton name="View after" disabled={!view.canForward()} onPress={view.forward}>
          <ForwardIcon />
        </IconButton>
        <IconButton name="Zoom out" onPress={() => view.zoom(1 / 0.6, instants.touched())}>
          <MinusIcon />
        </IconButton>
        <IconButton name="Zoom in" onPress={() => view.zoom(0.6, instants.touched())}>
          <PlusIcon />
        </IconButton>
        <IconButton
          name="Zoom to a box"
          isPressed={isBox()}
          onPress={() => dimensions.setTool(isBox() ? "pan" : "box")}
        >
          <BoxIcon />
        </IconButton>
        <button type="button" onClick={view.seeAll}>
          See all
        </button>
      </div>
      <div class="group">
        <IconButton name="Previous lift-off" disabled={!has()} onPress={liftOffs.previous}>
          <PreviousLiftOffIcon />
        </IconButton>
        <IconButton name="Next lift-off" disabled={!has()} onPress={liftOffs.next}>
          <NextLiftOffIcon />
        </IconButton>
      </div>
      <GoTo />
    </div>
  );
};

const ToolButton: Component<{
  readonly name: string;
  /** What it says beside its icon: part of its name. */
  readonly word: string;
  readonly tool: Tool;
  readonly children: JSX.Element;
}> = (props) => {
  const dimensions = useDimensions();
  const isActive = () => dimensions.tool() === props.tool;
  return (
    <button
      type="button"
      class="icon tool"
      aria-label={props.name}
      title={props.name}
      aria-pressed={isActive()}
      onClick={() => dimensions.setTool(isActive() ? "pan" : props.tool)}
    >
      {props.children}
      <span>{props.word}</span>
    </button>
  );
};

const IconButton: Component<{
  readonly name: string;
  readonly disabled?: boolean;
  readonly isPressed?: boolean;
  readonly onPress: () => void;
  readonly children: JSX.Element;
}> = (props) => (
  <button
    type="button"
    class="icon"
    aria-label={props.name}
    title={props.name}
    disabled={props.disabled ?? false}
    aria-pressed={props.isPressed}
    onClick={props.onPress}
  >
    {props.children}
  </button>
);

/** What the next press on the lanes does, over the lanes. */
export const ToolHint: Component = () => {
  const dimensions = useDimensions();
  const liftOffs = useLiftOffs();
  return (
    <Show when={hintOf(dimensions.tool(), liftOffs.placing() !== null)}>{(hint) => <p class="hint">{hint()}</p>}</Show>
  );
};

function hintOf(tool: Tool, placing: boolean): string | null {
  if (placing) return "Touch the front's fall";
  if (tool === "time-pair") return "Drag from one time to another";
  if (tool === "level-pair") return "Drag from one level to another";
  if (tool === "box") return "Draw a box around what is to fill the view";
  if (tool === "span") return "Drag over the span to measure";
  return null;
}
