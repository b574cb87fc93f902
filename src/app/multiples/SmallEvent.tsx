// One lift-off as a small picture: front thin, rear thick, the healthy band grey behind; its delay in words below.

import { type Component, createMemo, Show } from "solid-js";
import { drawLine, type Mapping, mapping, type Polyline, textPen, toPixel } from "../../drawing/paths.ts";
import { formatReading, readingAloud } from "../../signal/written/reading-text.ts";
import { about, type SmallBand, type SmallEventLook } from "./events.ts";

/** Of the drawing; it is stretched to where it stands. */
const [width, height] = [200, 100];
const x = mapping(about.from, about.to, 0, width);

export const SmallEvent: Component<{
  readonly event: SmallEventLook;
  readonly range: readonly [low: number, high: number];
  /** Level of the dotted line, in the channels' unit. */
  readonly level: number;
  readonly isChosen: boolean;
  readonly onChoose?: (() => void) | undefined;
}> = (props) => {
  const y = createMemo(() => mapping(props.range[0], props.range[1], height - 3, 3));
  const text = () => formatReading(props.event.delay);
  const path = (line: Polyline | null) => (line ? pathOf(line, y()) : "");
  return (
    <button
      type="button"
      class="small-event"
      aria-pressed={props.onChoose ? props.isChosen : undefined}
      aria-label={`${props.event.label}, delay ${readingAloud(props.event.delay)}`}
      disabled={!props.onChoose}
      onClick={() => props.onChoose?.()}
    >
      <svg viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none" aria-hidden="true">
        <Show when={props.event.band}>{(band) => <path class="small-band" d={bandPath(band(), y())} />}</Show>
        <path class="chart-guide" d={`M0 ${toPixel(y(), props.level)}H${width}M${toPixel(x, 0)} 0V${height}`} />
        <g classList={{ "small-reference": props.event.whose === "reference" }}>
          <path class="event-line event-rear ink-rear" d={path(props.event.rear)} />
          <path class="event-line event-front ink-front" d={path(props.event.front)} />
        </g>
      </svg>
      <span class="small-label">{props.event.label}</span>
      <span class="value">{text().value}</span> <span class="bounds">{text().bounds}</span>
    </button>
  );
};

function pathOf(line: Polyline, y: Mapping): string {
  const pen = textPen();
  drawLine(line, x, y, pen);
  return pen.text();
}

/** Closed outlines, one for each stretch without a gap. */
function bandPath({ times, low, high }: SmallBand, y: Mapping): string {
  const parts: string[] = [];
  let from = 0;
  const close = (to: number) => {
    if (to - from < 2) return;
    const at = (values: Float64Array, k: number) =>
      `${toPixel(x, times[k]!).toFixed(1)} ${toPixel(y, values[k]!).toFixed(1)}`;
    const ks = Array.from({ length: to - from }, (_, i) => from + i);
    parts.push(
      `M${ks.map((k) => at(high, k)).join("L")}L${ks
        .reverse()
        .map((k) => at(low, k))
        .join("L")}Z`,
    );
  };
  for (let k = 0; k <= times.length; k++) {
    if (k < times.length && !Number.isNaN(low[k]! + high[k]!)) continue;
    close(k);
    from = k + 1;
  }
  return parts.join("");
}
