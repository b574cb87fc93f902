// The whole capture in one thin strip: stretches named above, front and rear below, and the view as a frame to move.

import { type Accessor, type Component, createEffect, createMemo, For, onCleanup, onMount } from "solid-js";
import { fromPixel, type Mapping, mapping, toPixel } from "../../drawing/paths.ts";
import { makeAsking } from "../hands/asking.ts";
import { beginDrag } from "../hands/drag.ts";
import { panned, zoomed } from "../hands/view.ts";
import { gutter, margin } from "../stage/layout.ts";
import { createSize } from "../stage/stage.ts";
import type { OverviewProps, View } from "../stage/types.ts";
import { inset, linesTop, plotWidth } from "./layout.ts";
import { overviewLines } from "./overview-lines.ts";
import { StretchRow } from "./StretchRow.tsx";
import { ViewFrame } from "./ViewFrame.tsx";
import "../stage/plot.css";

/** Fills its parent; made for a strip about 90 px high. A touch outside the frame moves the view there. */
export const Overview: Component<OverviewProps> = (props) => {
  let element!: HTMLDivElement;
  const size = createSize(() => element);
  const x = createMemo(() =>
    mapping(props.whole.from, props.whole.to, gutter, Math.max(gutter + 1, size().width - margin)),
  );
  const bottom = () => Math.max(linesTop + 1, size().height - inset);
  const hands = createHands(props, x, () => element);
  createEffect(() => {
    if (size().width > 0) props.onWidth?.(Math.round((size().width - gutter - margin) * devicePixelRatio));
  });
  return (
    <div class="overview" ref={element}>
      <Drawn {...props} x={x()} width={size().width} height={size().height} bottom={bottom()} />
      <svg class="overview-hands" width={size().width} height={size().height}>
        <title>The view within the recording</title>
        <rect
          class="overview-press"
          x={gutter}
          y="0"
          width={plotWidth(size().width)}
          height={size().height}
          on:pointerdown={hands.press}
        />
        <ViewFrame view={props.view} whole={props.whole} x={x()} bottom={bottom()} asking={hands.asking} />
      </svg>
      <StretchRow
        x={x()}
        stretches={props.stretches}
        stretchName={props.stretchName}
        chosenStretch={props.chosenStretch ?? null}
        onStretch={props.onStretch}
      />
    </div>
  );
};

/** The wheel zooms about the pointer; a press brings the view to it, and drags it on from there. */
function createHands(props: OverviewProps, x: Accessor<Mapping>, element: () => HTMLElement) {
  const asking = makeAsking(props);
  onCleanup(() => asking.stop());
  const timeAt = (event: MouseEvent) => fromPixel(x(), event.clientX - element().getBoundingClientRect().left);
  onMount(() => {
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      asking.view(zoomed(asking.current(), props.whole, timeAt(event), Math.exp(event.deltaY * 0.0016)));
    };
    const listening = element();
    listening.addEventListener("wheel", onWheel, { passive: false });
    onCleanup(() => listening.removeEventListener("wheel", onWheel));
  });
  const press = (event: PointerEvent & { currentTarget: SVGRectElement }) => {
    const { from, to } = asking.current();
    const start = panned({ from, to }, props.whole, timeAt(event) - (from + to) / 2);
    beginDrag(event, {
      onGrab: () => asking.view(start),
      onDrag: (dx) => asking.view(panned(start, props.whole, dx / x().factor)),
      onDoubleTap: () => asking.view(props.whole),
    });
  };
  return { asking, press };
}

interface DrawnProps extends Pick<OverviewProps, "traces" | "windows" | "whole" | "marked" | "places" | "events"> {
  readonly x: Mapping;
  readonly width: number;
  readonly height: number;
  readonly bottom: number;
}

/** What is to be seen of the whole: lines, places that have a name, what is told of, lift-offs. */
const Drawn: Component<DrawnProps> = (props) => {
  const lines = createMemo(() => {
    const right = Math.max(gutter + 1, props.width - margin);
    const box = { left: gutter, right, top: linesTop + 3, bottom: props.bottom - 3 };
    return overviewLines(props.traces, props.windows, props.whole, box);
  });
  return (
    <svg class="overview-ground" width={props.width} height={props.height}>
      <title>The whole recording</title>
      <rect
        class="overview-sheet"
        x={gutter}
        y={linesTop}
        width={plotWidth(props.width)}
        height={props.bottom - linesTop}
      />
      <For each={lines()}>
        {({ style, d, width }) => (
          <path
            class={`overview-line ink-${style.token} ${width === 0 ? "overview-crowded" : ""}`}
            d={d}
            stroke-width={width}
            stroke-dasharray={style.dash.join(" ")}
          />
        )}
      </For>
      <For each={props.marked ?? []}>
        {(span) => <rect class="overview-marked" {...across(props.x, span, 3)} y={props.bottom - 5} height="5" />}
      </For>
      <For each={props.places ?? []}>
        {(span) => <rect class="overview-place" {...across(props.x, span, 2, 1)} y={linesTop} height="4" />}
      </For>
      <For each={props.events ?? []}>
        {(time) => <path class="overview-event" d={`M${toPixel(props.x, time)} ${linesTop - 2}l4 -5h-8z`} />}
      </For>
    </svg>
  );
};

/** @param least  px, so that an instant can be seen. */
function across(x: Mapping, { from, to }: View, least: number, before = 0) {
  return { x: toPixel(x, from) - before, width: Math.max(least, toPixel(x, to) - toPixel(x, from)) };
}
