// One dimension on the traces: its drawing, and the parts that can be taken hold of.

import { type Component, For, Show } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import type { Line } from "../../drawing/dimension.ts";
import { arrowPath, linesPath } from "../../drawing/dimension-path.ts";
import { fromPixel } from "../../drawing/paths.ts";
import { formatTime, formatValue, readingAloud } from "../../signal/written/reading-text.ts";
import { Grip } from "../hands/Grip.tsx";
import type { Stage } from "../stage/stage.ts";
import type { DimensionEvent, DimensionLook, DimensionPart, Range, TraceWindow } from "../stage/types.ts";
import { type LaidOut, noteSize, valueSize } from "./dimension-layout.ts";
import { type Moved, moveBoth, moveEnd, nextTime, partName } from "./moves.ts";

export interface DimensionProps {
  readonly look: DimensionLook;
  readonly laid: LaidOut;
  readonly stage: Stage;
  readonly unit: string;
  readonly whole: { readonly from: number; readonly to: number };
  /** Of the lane's channels, to step from sample to sample. */
  readonly windows: readonly TraceWindow[];
  readonly isSelected: boolean;
  readonly clip: string;
  readonly onEvent: (event: DimensionEvent) => void;
  readonly onToggleFrequency: () => void;
}

/** A little over 44 px, so that rounding never makes it less. */
const target = 45;

export const Dimension: Component<DimensionProps> = (props) => {
  const along = () => (props.look.kind === "time" ? "x" : "y");
  /** Seconds or units that one pixel along the measure is worth. */
  const perPixel = () => {
    if (props.look.kind === "time") return props.stage.secondsPerPixel();
    return 1 / props.stage.y(props.look.laneId).factor;
  };
  const name = () => props.look.label || (props.look.kind === "time" ? "Time pair" : "Level pair");
  const tell = (part: DimensionPart, { from, to, place }: Moved, final: boolean, isDragged = false) =>
    props.onEvent({ kind: "move", id: props.look.id, part, from, to, place, final, isDragged });
  const select = () => {
    if (!props.isSelected) props.onEvent({ kind: "select", id: props.look.id });
  };
  const key = (pressed: string, part: "from" | "to" | null): boolean => {
    const event = eventOfKey(pressed, props.look, part);
    if (event !== null) props.onEvent(event);
    return event !== null;
  };
  const canMove = () => props.look.isCursor || props.isSelected;

  return (
    <g
      class="dimension"
      classList={{ "dimension-selected": props.isSelected, "dimension-cursor": props.look.isCursor }}
    >
      <DimensionLines laid={props.laid} clip={props.clip} />
      <DimensionBody {...props} name={name()} select={select} tell={tell} onKey={(pressed) => key(pressed, null)} />
      <Show when={canMove()}>
        <For each={["from", "to"] as const}>
          {(part) => {
            let start: DimensionLook = props.look;
            return (
              <Grip
                areas={[gripArea(props.laid, part, along())]}
                name={`${name()}, ${partName[part]}`}
                value={props.look.kind === "time" ? props.look[part].time : props.look[part].level}
                valueText={endText(props, part)}
                {...limits(props)}
                along={along()}
                onGrab={() => {
                  start = props.look;
                  select();
                }}
                onDrag={(dx, dy, final) =>
                  tell(part, moveEnd(start, part, (along() === "x" ? dx : dy) * perPixel()), final, true)
                }
                onStep={(direction, isLarge) => tell(part, stepped(props, part, direction, isLarge ? 10 : 1), false)}
                onSettled={() => tell(part, props.look, true)}
                onKey={(pressed) => key(pressed, part)}
              >
                <circle
                  class="grip-dot"
                  cx={props.laid[part].x}
                  cy={props.laid[part].y}
                  r="4.5"
                  clip-path={props.clip}
                />
              </Grip>
            );
          }}
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

interface BodyProps extends DimensionProps {
  readonly name: string;
  readonly select: () => void;
  readonly tell: (part: DimensionPart, moved: Moved, final: boolean) => void;
  readonly onKey: (key: string) => boolean;
}

/** Line and text: dragged across, the line goes elsewhere; dragged along, both ends of a cursor pair go with it. */
const DimensionBody: Component<BodyProps> = (props) => {
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
    return {
      from: start.from,
      to: start.to,
      place: fromPixel(props.look.kind === "time" ? y : props.stage.x(), startPlace + across),
    };
  };
  const grab = () => {
    start = props.look;
    startPlace = props.laid.place;
    way = null;
    props.select();
  };
  const toggle = () => props.look.kind === "time" && props.onToggleFrequency();
  const key = (pressed: string) => {
    if (pressed !== "f") return props.onKey(pressed);
    toggle();
    return true;
  };
  const step = (direction: -1 | 1, isLarge: boolean) => {
    grab();
    way = "across";
    const pixels = direction * (isLarge ? 10 : 1);
    props.tell("line", props.look.kind === "time" ? moved(0, -pixels) : moved(pixels, 0), true);
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
    </Grip>
  );
};

function placeLimits({ look, stage, whole }: DimensionProps): Range {
  return look.kind === "time" ? (stage.ranges().get(look.laneId) ?? [0, 1]) : [whole.from, whole.to];
}

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

function stepped(
  { look, stage, windows }: DimensionProps,
  part: "from" | "to",
  direction: -1 | 1,
  times: number,
): Moved {
  if (look.kind === "level") return moveEnd(look, part, (direction * times) / Math.abs(stage.y(look.laneId).factor));
  let time = look[part].time;
  for (let i = 0; i < times; i++) time = nextTime(time, direction, stage.secondsPerPixel(), windows);
  return moveEnd(look, part, time - look[part].time);
}

function endText({ look, stage, unit }: DimensionProps, part: "from" | "to"): string {
  const step = 1 / Math.abs(stage.y(look.laneId).factor);
  return `${formatTime(look[part].time, stage.secondsPerPixel())}, ${formatValue(look[part].level, unit, step)}`;
}

function limits({ look, stage, whole }: DimensionProps): { readonly min: number; readonly max: number } {
  if (look.kind === "time") return { min: whole.from, max: whole.to };
  const [min, max]: Range = stage.ranges().get(look.laneId) ?? [0, 1];
  return { min, max };
}

/** At least 44 px each way; where the ends are close, each reaches outwards so that both can be taken. */
function gripArea(laid: LaidOut, part: "from" | "to", along: "x" | "y"): Box {
  const across = along === "x" ? "y" : "x";
  const [own, other] = [laid[part][along], laid[part === "from" ? "to" : "from"][along]];
  const isFirst = own < other || (own === other && part === "from");
  const half = target / 2;
  const inwards = Math.min(half, Math.abs(own - other) / 2);
  const [start, end] = isFirst ? [own - target + inwards, own + inwards] : [own - inwards, own + target - inwards];
  const [low, high] = [laid[part][across], laid.place].sort((a, b) => a - b) as [number, number];
  const spare = Math.max(12, (target - (high - low)) / 2);
  const [low2, high2] = [low - spare, high + spare];
  if (along === "x") return { left: start, right: end, top: low2, bottom: high2 };
  return { left: low2, right: high2, top: start, bottom: end };
}

function lineArea(laid: LaidOut, kind: "time" | "level"): Box {
  const points = laid.geometry.lines.flatMap(({ from, to }) => [from, to]);
  const [xs, ys] = [points.map((point) => point.x), points.map((point) => point.y)];
  const half = target / 2;
  const [padX, padY] = kind === "time" ? [0, half] : [half, 0];
  return {
    left: Math.max(-20, Math.min(...xs) - padX),
    right: Math.min(9999, Math.max(...xs) + padX),
    top: Math.min(...ys) - padY,
    bottom: Math.max(...ys) + padY,
  };
}

function textArea(box: Box): Box {
  const pad = Math.max(0, (target - (box.bottom - box.top)) / 2);
  return { left: box.left, right: box.right, top: box.top - pad, bottom: box.bottom + pad };
}

const allLines = ({ geometry }: LaidOut): readonly Line[] => [...geometry.extensions, ...geometry.lines];
