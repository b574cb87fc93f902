// What lies under a finger, drawn larger beside it: a fingertip covers more samples than a pixel tells apart.

import { type Component, createMemo, createUniqueId, For } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import { linesOf } from "../../drawing/layer.ts";
import { drawLine, mapping, textPen } from "../../drawing/paths.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import type { Finger } from "../hands/gestures.ts";
import type { Size } from "../stage/layout.ts";
import type { Stage } from "../stage/stage.ts";
import { traceStyles } from "../stage/trace-style.ts";
import type { LaneLook, LoupeLook } from "../stage/types.ts";

/** CSS pixels. The app asks for windows of this width. */
export const loupeSize = { width: 150, height: 124 } as const;
/** Clear of the fingertip, and of the hand behind it where there is room. */
const [near, away] = [24, 56];
/** What a value takes beside the line. */
const valueRoom = 90;
const foot = 22;
const edge = 4;

export const Loupe: Component<{ look: LoupeLook; lane: LaneLook; finger: Finger; stage: Stage }> = (props) => {
  const clip = createUniqueId();
  const box = createMemo(() => loupeBox(props.finger, props.stage.size()));
  const middle = () => (box().left + box().right) / 2;
  const lines = createMemo(() => drawnLines(props.look, props.lane, props.stage, box()));
  return (
    <g class="loupe">
      <rect class="loupe-sheet" x={box().left} y={box().top} {...loupeSize} rx="6" />
      <clipPath id={clip}>
        <rect x={box().left} y={box().top} width={loupeSize.width} height={loupeSize.height - foot} />
      </clipPath>
      <g clip-path={`url(#${clip})`}>
        <path class="loupe-at" d={`M${middle()} ${box().top}V${box().bottom - foot}`} />
        <For each={lines()}>
          {(line) => <path class={`loupe-line ink-${line.token}`} d={line.d} stroke-width={line.width} />}
        </For>
      </g>
      <text font-size="14px" x={middle()} y={box().bottom - 7} text-anchor="middle">
        {wide(props.look)}
      </text>
    </g>
  );
};

const wide = ({ span }: LoupeLook): string => {
  const length = span.to - span.from;
  return `${formatValue(length, "s")} wide`;
};

/** Above the finger; where there is no room above, beside it. */
export function loupeBox({ x, y }: Pick<Finger, "x" | "y">, { width }: Size): Box {
  const isAbove = y - away - loupeSize.height >= edge;
  const top = isAbove ? y - away - loupeSize.height : edge;
  const most = width - edge - loupeSize.width;
  const sides = [x + away, x - away - loupeSize.width, x + near, x - near - loupeSize.width];
  const beside = sides.find((side) => side >= edge && side <= most) ?? sides[0]!;
  const left = Math.min(Math.max(isAbove ? besideLine(x, most) : beside, edge), Math.max(edge, most));
  return { left, right: left + loupeSize.width, top, bottom: top + loupeSize.height };
}

/** Values stand right of the line where they have room: the loupe left of it, else beyond them. */
function besideLine(x: number, most: number): number {
  const left = x - near / 2 - loupeSize.width;
  return left >= edge && x <= most + loupeSize.width - valueRoom ? left : Math.min(x + valueRoom, most);
}

function drawnLines({ span, windows }: LoupeLook, lane: LaneLook, stage: Stage, box: Box) {
  const [low, high] = stage.ranges().get(lane.id) ?? [0, 1];
  const x = mapping(span.from, span.to, box.left, box.right);
  const y = mapping(low, high, box.bottom - foot - edge, box.top + edge);
  return traceStyles(linesOf(lane)).flatMap(({ trace, token, width }) => {
    const window = windows.get(trace.channelId);
    if (window === undefined) return [];
    const pen = textPen();
    drawLine(window, x, y, pen);
    return [{ token, width: width + 0.6, d: pen.text() }];
  });
}
