// One dimension on the traces: its drawing, and the parts that can be taken hold of.

import { type Component, For, Show } from "solid-js";
import type { Line } from "../../drawing/dimension.ts";
import { arrowPath, linesPath } from "../../drawing/dimension-path.ts";
import { Ground } from "../stage/Ground.tsx";
import type { DimensionEvent, DimensionLook } from "../stage/types.ts";
import { DimensionBody } from "./DimensionBody.tsx";
import { DimensionEnd } from "./DimensionEnd.tsx";
import type { LaidOut } from "./dimension-layout.ts";
import type { DimensionProps, PartProps } from "./dimension-props.ts";

/** What its body and its ends tell. */
function createTelling(props: DimensionProps): Pick<PartProps, "name" | "tell" | "select" | "onKey"> {
  return {
    get name() {
      return props.look.label || (props.look.kind === "time" ? "Time pair" : "Level pair");
    },
    tell: (part, { from, to, place }, final, isDragged = false) =>
      props.onEvent({ kind: "move", id: props.look.id, part, from, to, place, final, isDragged }),
    select: () => {
      if (!props.isSelected) props.onEvent({ kind: "select", id: props.look.id });
    },
    onKey: (pressed, part) => {
      const event = eventOfKey(pressed, props.look, part);
      if (event !== null) props.onEvent(event);
      return event !== null;
    },
  };
}

export const Dimension: Component<DimensionProps> = (props) => {
  const telling = createTelling(props);
  return (
    <g
      class="dimension"
      classList={{ "dimension-selected": props.isSelected, "dimension-cursor": props.look.isCursor }}
    >
      <DimensionLines laid={props.laid} clip={props.clip} />
      <DimensionBody {...props} {...telling} />
    </g>
  );
};

/** Drawn above all bodies, so that no other dimension's words lie over what a finger takes hold of. */
export const DimensionEnds: Component<DimensionProps> = (props) => {
  const telling = createTelling(props);
  return (
    <Show when={props.look.isCursor || props.isSelected}>
      <g class="dimension" classList={{ "dimension-selected": props.isSelected }}>
        <For each={["from", "to"] as const}>{(end) => <DimensionEnd {...props} {...telling} end={end} />}</For>
      </g>
    </Show>
  );
};

const DimensionLines: Component<{ laid: LaidOut; clip: string }> = (props) => (
  <g clip-path={props.clip}>
    <For each={props.laid.grounds}>{(box) => <Ground box={box} />}</For>
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
