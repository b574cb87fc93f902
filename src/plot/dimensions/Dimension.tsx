// One dimension on the traces: its drawing, and the parts that can be taken hold of.

import { type Component, For, Show } from "solid-js";
import type { Line } from "../../drawing/dimension.ts";
import { arrowPath, linesPath } from "../../drawing/dimension-path.ts";
import type { DimensionEvent, DimensionLook } from "../stage/types.ts";
import { DimensionBody } from "./DimensionBody.tsx";
import { DimensionEnd } from "./DimensionEnd.tsx";
import type { LaidOut } from "./dimension-layout.ts";
import type { DimensionProps, PartProps } from "./dimension-props.ts";

export const Dimension: Component<DimensionProps> = (props) => {
  const name = () => props.look.label || (props.look.kind === "time" ? "Time pair" : "Level pair");
  const tell: PartProps["tell"] = (part, { from, to, place }, final, isDragged = false) =>
    props.onEvent({ kind: "move", id: props.look.id, part, from, to, place, final, isDragged });
  const select = () => {
    if (!props.isSelected) props.onEvent({ kind: "select", id: props.look.id });
  };
  const key: PartProps["onKey"] = (pressed, part) => {
    const event = eventOfKey(pressed, props.look, part);
    if (event !== null) props.onEvent(event);
    return event !== null;
  };
  return (
    <g
      class="dimension"
      classList={{ "dimension-selected": props.isSelected, "dimension-cursor": props.look.isCursor }}
    >
      <DimensionLines laid={props.laid} clip={props.clip} />
      <DimensionBody {...props} name={name()} select={select} tell={tell} onKey={key} />
      <Show when={props.look.isCursor || props.isSelected}>
        <For each={["from", "to"] as const}>
          {(end) => <DimensionEnd {...props} end={end} name={name()} select={select} tell={tell} onKey={key} />}
        </For>
      </Show>
    </g>
  );
};

const DimensionLines: Component<{ laid: LaidOut; clip: string }> = (props) => (
  <g clip-path={props.clip}>
    <path class="dimension-halo" d={linesPath(allLines(props.laid))} />
    <path class="dimension-line" d={linesPath(allLines(props.laid))} />
    <path class="dimension-arrow" d={props.laid.geometry.arrows.map(arrowPath).join("")} />
  </g>
);

function eventOfKey(pressed: string, { id, kind }: DimensionLook, part: "from" | "to" | null): DimensionEvent | null {
  switch (pressed) {
    case "Enter":
      return part === null ? { kind: "label", id } : { kind: "type", id, part };
    case "Delete":
    case "Backspace":
      return { kind: "remove", id };
    case "Escape":
      return { kind: "select", id: null };
    case "p":
      return { kind: "pin", id };
    case "c":
      return part === null || kind !== "time" ? null : { kind: "snap", id, part, snapTo: "crossing" };
    case "x":
      return part === null ? null : { kind: "snap", id, part, snapTo: "extreme" };
    default:
      return null;
  }
}

const allLines = ({ geometry }: LaidOut): readonly Line[] => [...geometry.extensions, ...geometry.lines];
