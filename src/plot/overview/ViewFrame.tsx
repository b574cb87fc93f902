// The view within the whole recording, as a frame: its middle moves it, its edges make it shorter or longer.

import { type Component, For } from "solid-js";
import { type Mapping, toPixel } from "../../drawing/paths.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import type { makeAsking } from "../hands/asking.ts";
import { Grip } from "../hands/Grip.tsx";
import { panned, within } from "../hands/view.ts";
import type { OverviewProps, View } from "../stage/types.ts";
import { linesTop } from "./layout.ts";

const edgeReach = 22;

interface FrameProps extends Pick<OverviewProps, "view" | "whole"> {
  readonly x: Mapping;
  readonly bottom: number;
  readonly asking: ReturnType<typeof makeAsking>;
}

type Edge = "from" | "to";

export const ViewFrame: Component<FrameProps> = (props) => {
  const left = () => toPixel(props.x, props.view.from);
  const right = () => rightOf(props);
  const top = linesTop - 3;
  let start: View = props.view;
  const grab = () => {
    start = props.asking.current();
  };
  const step = (direction: -1 | 1, isLarge: boolean) => {
    const by = direction * (isLarge ? 0.9 : 0.15) * (props.view.to - props.view.from);
    props.asking.view(panned(props.asking.current(), props.whole, by));
  };
  return (
    <g class="view-frame">
      <Grip
        {...along(props)}
        areas={[{ left: left(), right: right(), top, bottom: props.bottom + 3 }]}
        name="View"
        value={props.view.from}
        valueText={`${formatTime(props.view.from, digits(props))} to ${formatTime(props.view.to, digits(props))}`}
        onGrab={grab}
        onDrag={(dx) => props.asking.view(panned(start, props.whole, dx / props.x.factor))}
        onStep={step}
        onDoubleTap={() => props.asking.view(props.whole)}
      >
        <rect
          class="view-frame-line"
          x={left()}
          y={top}
          width={right() - left()}
          height={props.bottom + 3 - top}
          rx="2"
        />
      </Grip>
      <For each={["from", "to"] as const}>{(edge) => <FrameEdge {...props} edge={edge} />}</For>
    </g>
  );
};

const FrameEdge: Component<FrameProps & { readonly edge: Edge }> = (props) => {
  const left = () => toPixel(props.x, props.view.from);
  const x = () => (props.edge === "from" ? left() : rightOf(props));
  let start: View = props.view;
  const resize = (by: number, from: View) => props.asking.view(resized(from, props.edge, by, props.whole));
  return (
    <Grip
      {...along(props)}
      areas={[edgeArea(x(), props.edge, rightOf(props) - left(), props.bottom)]}
      name={props.edge === "from" ? "Start of the view" : "End of the view"}
      value={props.view[props.edge]}
      valueText={formatTime(props.view[props.edge], digits(props))}
      onGrab={() => {
        start = props.asking.current();
      }}
      onDrag={(dx) => resize(dx / props.x.factor, start)}
      onStep={(direction, isLarge) => resize((direction * (isLarge ? 20 : 2)) / props.x.factor, props.asking.current())}
    >
      <path class="view-frame-edge" d={`M${x()} ${linesTop + 8}V${props.bottom - 8}`} />
    </Grip>
  );
};

const along = ({ whole }: FrameProps) => ({ min: whole.from, max: whole.to, along: "x" }) as const;

const digits = ({ view }: FrameProps): number => (view.to - view.from) / 500;

/** However short the view is, the frame can be seen. */
const rightOf = ({ x, view }: FrameProps): number => Math.max(toPixel(x, view.from) + 6, toPixel(x, view.to));

/** One edge moved by some seconds; the view stays within the whole and keeps a least length. */
function resized(from: View, edge: Edge, by: number, whole: View): View {
  const least = (whole.to - whole.from) / 5000;
  const kept = Math.min(Math.max(from[edge] + by, whole.from), whole.to);
  const next =
    edge === "from"
      ? { from: Math.min(kept, from.to - least), to: from.to }
      : { from: from.from, to: Math.max(kept, from.from + least) };
  return within(next, whole);
}

/** Reaches outwards, and inwards no further than leaves the middle free to be dragged. */
function edgeArea(x: number, edge: Edge, width: number, bottom: number) {
  const inwards = Math.min(edgeReach / 2, width / 3);
  const outwards = 2 * edgeReach - inwards;
  const [left, right] = edge === "from" ? [x - outwards, x + inwards] : [x - inwards, x + outwards];
  return { left, right, top: linesTop, bottom };
}
