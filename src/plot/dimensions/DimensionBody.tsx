// Line and text of a dimension: dragged across, the line goes elsewhere; dragged along, both ends of a cursor pair go with it.

import { type Component, For } from "solid-js";
import { fromPixel } from "../../drawing/paths.ts";
import { readingAloud } from "../../signal/written/reading-text.ts";
import { Grip } from "../hands/Grip.tsx";
import type { DimensionLook, Range } from "../stage/types.ts";
import { lineArea, textArea } from "./areas.ts";
import { noteSize, valueSize } from "./dimension-layout.ts";
import type { DimensionProps, PartProps } from "./dimension-props.ts";
import { type Moved, moveBoth } from "./moves.ts";

export const DimensionBody: Component<PartProps> = (props) => {
  const { grab, moved, step } = createLineDrag(props);
  const toggle = () => props.look.kind === "time" && props.onToggleFrequency();
  const key = (pressed: string) => {
    if (pressed !== "f") return props.onKey(pressed, null);
    toggle();
    return true;
  };
  return (
    <Grip
      class="dimension-body"
      areas={[lineArea(props.laid, props.look.kind), textArea(props.laid.geometry.textBox)]}
      name={`${props.name}: ${readingAloud(props.look.reading)}`}
      value={props.look.place}
      valueText="where its line is drawn"
      min={placeLimits(props)[0]}
      max={placeLimits(props)[1]}
      along={props.look.kind === "time" ? "y" : "x"}
      onGrab={grab}
      onDrag={(dx, dy, final) => props.tell("line", moved(dx, dy), final)}
      onTap={toggle}
      onDoubleTap={() => props.onEvent({ kind: "label", id: props.look.id })}
      onStep={step}
      onKey={key}
    >
      <Words {...props} />
    </Grip>
  );
};

/** The way of a drag, along or across, is that of its first movement. */
function createLineDrag(props: PartProps) {
  let start: DimensionLook = props.look;
  let startPlace = 0;
  let way: "along" | "across" | null = null;
  const moved = (dx: number, dy: number): Moved => {
    const [along, across] = props.look.kind === "time" ? [dx, dy] : [dy, dx];
    way ??= props.look.isCursor && Math.abs(along) > Math.abs(across) ? "along" : "across";
    const y = props.stage.y(props.look.laneId);
    if (way === "along") {
      return moveBoth(start, along * (props.look.kind === "time" ? props.stage.secondsPerPixel() : 1 / y.factor));
    }
    const scale = props.look.kind === "time" ? y : props.stage.x();
    return { from: start.from, to: start.to, place: fromPixel(scale, startPlace + across) };
  };
  const grab = () => {
    start = props.look;
    startPlace = props.laid.place;
    way = null;
    props.select();
  };
  const step = (direction: -1 | 1, isLarge: boolean) => {
    grab();
    way = "across";
    const pixels = direction * (isLarge ? 10 : 1);
    props.tell("line", props.look.kind === "time" ? moved(0, -pixels) : moved(pixels, 0), true);
  };
  return { grab, moved, step };
}

/** The value, and below it its bounds or its frequency. */
const Words: Component<DimensionProps> = (props) => (
  <For each={props.laid.texts}>
    {(text, i) => (
      <text
        class={i() === 0 ? "dimension-value" : "dimension-note"}
        font-size={`${i() === 0 ? valueSize() : noteSize()}px`}
        x={props.laid.geometry.texts[i()]?.x}
        y={props.laid.geometry.texts[i()]?.y}
        text-anchor={props.laid.geometry.texts[i()]?.anchor}
      >
        {text}
      </text>
    )}
  </For>
);

function placeLimits({ look, stage, whole }: DimensionProps): Range {
  return look.kind === "time" ? (stage.ranges().get(look.laneId) ?? [0, 1]) : [whole.from, whole.to];
}
