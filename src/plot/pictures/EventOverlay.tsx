// All lift-offs laid over each other at the front's fall: do they agree? The chosen one stands out, with its delay.

import { type Component, createMemo, createUniqueId, For, Show } from "solid-js";
import { type DimensionGeometry, dimensionGeometry } from "../../drawing/dimension.ts";
import { arrowPath, linesPath } from "../../drawing/dimension-path.ts";
import { dimensionTexts } from "../../drawing/dimension-text.ts";
import { drawLine, extentWithin, type Polyline, textPen, toPixel } from "../../drawing/paths.ts";
import { fitRange } from "../../drawing/scale.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { readingAloud } from "../../signal/written/reading-text.ts";
import { showUnit } from "../../signal/written/writing.ts";
import { textWidth } from "../stage/text-width.ts";
import type { Range } from "../stage/types.ts";
import { Chart, type ChartSpace } from "./Chart.tsx";
import type { EventOverlayProps, EventTraces } from "./picture-types.ts";

const [valueSize, noteSize] = [17, 13];

/** Fills its parent. A touch on a line or its button chooses the event. */
export const EventOverlay: Component<EventOverlayProps> = (props) => {
  const clip = `events-${createUniqueId()}`;
  const range = createMemo((): Range => (props.scale === "fit" ? fitted(props) : props.scale));
  const ordered = () =>
    [...props.events].sort((a, b) => Number(a.id === props.selected) - Number(b.id === props.selected));
  const chosen = () => props.events.find((event) => event.id === props.selected && event.delay?.value != null);
  return (
    <div class="event-overlay">
      <Chart
        name={`Lift-offs laid over each other: ${props.events.map(inWords).join("; ")}`}
        x={[props.span.from, props.span.to]}
        y={range()}
        xTitle="s after the front's fall"
        yTitle={`Oxygen sensors, ${showUnit(props.unit)}`}
        guides={props.guides}
      >
        {(space) => (
          <>
            <clipPath id={clip}>
              <rect
                x={space().left}
                y={space().top}
                width={space().right - space().left}
                height={space().bottom - space().top}
              />
            </clipPath>
            <g clip-path={`url(#${clip})`}>
              <For each={ordered()}>
                {(event) => (
                  <g
                    class="event-lines"
                    classList={{ "event-behind": props.selected !== null && props.selected !== event.id }}
                    on:click={() => props.onSelect(event.id)}
                  >
                    <EventLine line={event.rear} token="rear" space={space()} />
                    <EventLine line={event.front} token="front" space={space()} />
                  </g>
                )}
              </For>
            </g>
            <Show when={chosen()?.delay}>
              {(delay) => <Delay delay={delay()} level={props.level} space={space()} />}
            </Show>
          </>
        )}
      </Chart>
      <div class="event-picks">
        <For each={props.events}>
          {(event) => (
            <button type="button" aria-pressed={props.selected === event.id} onClick={() => props.onSelect(event.id)}>
              {event.label}
            </button>
          )}
        </For>
      </div>
    </div>
  );
};

const EventLine: Component<{ line: Polyline | null; token: "front" | "rear"; space: ChartSpace }> = (props) => {
  const d = createMemo(() => {
    const pen = textPen();
    if (props.line) drawLine(props.line, props.space.x, props.space.y, pen);
    return pen.text();
  });
  return (
    <g class={`ink-${props.token}`}>
      <path class="event-touch" d={d()} />
      <path class={`event-line event-${props.token}`} d={d()} />
    </g>
  );
};

const Delay: Component<{ delay: Reading; level: number; space: ChartSpace }> = (props) => {
  const texts = () => dimensionTexts(props.delay, "");
  const geometry = createMemo((): DimensionGeometry => {
    const { x, y, ...within } = props.space;
    const at = toPixel(y, props.level);
    return dimensionGeometry({
      kind: "time",
      from: { x: toPixel(x, 0), y: at },
      to: { x: toPixel(x, props.delay.value ?? 0), y: at },
      place: at - Math.min(60, (at - within.top) / 2),
      texts: texts().map((text, i) => ({ width: textWidth(text, sizeOf(i), i === 0 ? 600 : 400), size: sizeOf(i) })),
      within,
    });
  });
  return (
    <g class="dimension">
      <path class="dimension-line" d={linesPath([...geometry().extensions, ...geometry().lines])} />
      <path class="dimension-arrow" d={geometry().arrows.map(arrowPath).join("")} />
      <For each={texts()}>
        {(text, i) => (
          <text
            class={i() === 0 ? "dimension-value" : "dimension-note"}
            font-size={`${sizeOf(i())}px`}
            x={geometry().texts[i()]?.x}
            y={geometry().texts[i()]?.y}
            text-anchor={geometry().texts[i()]?.anchor}
          >
            {text}
          </text>
        )}
      </For>
    </g>
  );
};

const sizeOf = (line: number): number => (line === 0 ? valueSize : noteSize);

const inWords = ({ label, delay }: EventTraces): string => (delay ? `${label}, delay ${readingAloud(delay)}` : label);

function fitted({ events, span, unit }: EventOverlayProps): Range {
  const extents = events
    .flatMap(({ front, rear }) => [front, rear])
    .flatMap((line) => (line && extentWithin(line, span.from, span.to)) ?? []);
  return fitRange(extents.length > 0 ? [Math.min(...extents), Math.max(...extents)] : null, unit, null);
}
