// The whole capture in one thin strip: stretches named above, front and rear below, and the view as a frame to move.

import { type Component, createEffect, createMemo, For, onCleanup, onMount } from "solid-js";
import { fromPixel, type Mapping, mapping, toPixel } from "../../drawing/paths.ts";
import type { Stretch } from "../../exhaust/terms/analysis.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { makeAsking } from "../hands/asking.ts";
import { beginDrag } from "../hands/drag.ts";
import { Grip } from "../hands/Grip.tsx";
import { panned, within, zoomed } from "../hands/view.ts";
import { gutter, margin } from "../stage/layout.ts";
import { createSize } from "../stage/stage.ts";
import { textWidth } from "../stage/text-width.ts";
import type { OverviewProps, View } from "../stage/types.ts";
import { overviewLines } from "./overview-lines.ts";
import "../stage/plot.css";

const linesTop = 34;
const inset = 5;
const edgeReach = 22;

/** Fills its parent; made for a strip about 90 px high. A touch outside the frame moves the view there. */
export const Overview: Component<OverviewProps> = (props) => {
  let element!: HTMLDivElement;
  const size = createSize(() => element);
  const asking = makeAsking(props);
  onCleanup(() => asking.stop());
  const x = createMemo(() =>
    mapping(props.whole.from, props.whole.to, gutter, Math.max(gutter + 1, size().width - margin)),
  );
  const bottom = () => Math.max(linesTop + 1, size().height - inset);
  const lines = createMemo(() => {
    const box = {
      left: gutter,
      right: Math.max(gutter + 1, size().width - margin),
      top: linesTop + 3,
      bottom: bottom() - 3,
    };
    return overviewLines(props.traces, props.windows, props.whole, box);
  });
  createEffect(() => {
    if (size().width > 0) props.onWidth?.(Math.round((size().width - gutter - margin) * devicePixelRatio));
  });
  onMount(() => {
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const at = fromPixel(x(), event.clientX - element.getBoundingClientRect().left);
      asking.view(zoomed(asking.current(), props.whole, at, Math.exp(event.deltaY * 0.0016)));
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    onCleanup(() => element.removeEventListener("wheel", onWheel));
  });
  /** The view comes to where the press is, and is dragged on from there. */
  const onPress = (event: PointerEvent & { currentTarget: SVGRectElement }) => {
    const at = fromPixel(x(), event.clientX - element.getBoundingClientRect().left);
    const { from, to } = asking.current();
    const start = panned({ from, to }, props.whole, at - (from + to) / 2);
    beginDrag(event, {
      onGrab: () => asking.view(start),
      onDrag: (dx) => asking.view(panned(start, props.whole, dx / x().factor)),
      onDoubleTap: () => asking.view(props.whole),
    });
  };

  let row!: HTMLDivElement;
  /** The row is one stop for the Tab key; arrows go along it, to the narrowest stretch too. */
  const alongStretches = (event: KeyboardEvent) => {
    const buttons = [...row.querySelectorAll("button")];
    const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: buttons.length - 1 }[event.key];
    const wanted = to === undefined ? undefined : buttons[Math.min(Math.max(to, 0), buttons.length - 1)];
    if (!wanted) return;
    event.preventDefault();
    event.stopPropagation();
    wanted.focus();
    wanted.click();
  };

  return (
    <div class="overview" ref={element}>
      <svg class="overview-ground" width={size().width} height={size().height}>
        <title>The whole recording</title>
        <rect
          class="overview-sheet"
          x={gutter}
          y={linesTop}
          width={plotWidth(size().width)}
          height={bottom() - linesTop}
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
          {({ from, to }) => (
            <rect
              class="overview-marked"
              x={toPixel(x(), from)}
              y={bottom() - 5}
              width={Math.max(3, toPixel(x(), to) - toPixel(x(), from))}
              height="5"
            />
          )}
        </For>
        <For each={props.places ?? []}>
          {({ from, to }) => (
            <rect
              class="overview-place"
              x={toPixel(x(), from) - 1}
              y={linesTop}
              width={Math.max(2, toPixel(x(), to) - toPixel(x(), from))}
              height="4"
            />
          )}
        </For>
        <For each={props.events ?? []}>
          {(time) => <path class="overview-event" d={`M${toPixel(x(), time)} ${linesTop - 2}l4 -5h-8z`} />}
        </For>
      </svg>
      <svg class="overview-hands" width={size().width} height={size().height}>
        <title>The view within the recording</title>
        <rect
          class="overview-press"
          x={gutter}
          y="0"
          width={plotWidth(size().width)}
          height={size().height}
          on:pointerdown={onPress}
        />
        <ViewFrame {...props} x={x()} bottom={bottom()} asking={asking} />
      </svg>
      {/* biome-ignore lint/a11y/useSemanticElements: a row of buttons, no fieldset */}
      <div class="overview-stretches" role="group" aria-label="Stretches" ref={row} onKeyDown={alongStretches}>
        <For each={props.stretches}>
          {(stretch, i) => (
            <StretchBand
              stretch={stretch}
              x={x()}
              name={props.stretchName(stretch.kind)}
              isChosen={props.chosenStretch === stretch}
              isStop={i() === Math.max(0, props.stretches.indexOf(props.chosenStretch!))}
              onTouch={props.onStretch}
            />
          )}
        </For>
      </div>
    </div>
  );
};

const plotWidth = (width: number): number => Math.max(0, width - gutter - margin);

interface BandProps {
  readonly stretch: Stretch;
  readonly x: Mapping;
  readonly name: string;
  readonly isChosen: boolean;
  readonly isStop: boolean;
  readonly onTouch: (stretch: Stretch) => void;
}

const StretchBand: Component<BandProps> = (props) => {
  const left = () => toPixel(props.x, props.stretch.from);
  const width = () => Math.max(1, toPixel(props.x, props.stretch.to) - left() - 1);
  const hasRoom = () => textWidth(props.name, 13) + 10 < width();
  const isCorrected = () => props.stretch.origin === "user";
  const text = () => {
    const span = `${formatTime(props.stretch.from, 0.1)} to ${formatTime(props.stretch.to, 0.1)}`;
    return `${props.name}, ${span}${isCorrected() ? ", corrected by hand" : ""}`;
  };
  return (
    <button
      type="button"
      class={`stretch stretch-${props.stretch.kind}`}
      classList={{ "stretch-corrected": isCorrected() }}
      aria-current={props.isChosen}
      tabindex={props.isStop ? 0 : -1}
      style={{ left: `${left()}px`, width: `${width()}px` }}
      title={text()}
      aria-label={text()}
      onClick={() => props.onTouch(props.stretch)}
    >
      <span>{hasRoom() ? props.name : ""}</span>
    </button>
  );
};

interface FrameProps extends OverviewProps {
  readonly x: Mapping;
  readonly bottom: number;
  readonly asking: ReturnType<typeof makeAsking>;
}

const ViewFrame: Component<FrameProps> = (props) => {
  const left = () => toPixel(props.x, props.view.from);
  const right = () => Math.max(left() + 6, toPixel(props.x, props.view.to));
  const width = () => right() - left();
  const top = linesTop - 3;
  let start: View = props.view;
  const grab = () => {
    start = props.asking.current();
  };
  const seconds = (pixels: number) => pixels / props.x.factor;
  const resize = (edge: "from" | "to", by: number, from: View) => {
    const least = (props.whole.to - props.whole.from) / 5000;
    const kept = Math.min(Math.max(from[edge] + by, props.whole.from), props.whole.to);
    const next =
      edge === "from"
        ? { from: Math.min(kept, from.to - least), to: from.to }
        : { from: from.from, to: Math.max(kept, from.from + least) };
    props.asking.view(within(next, props.whole));
  };
  const common = { min: props.whole.from, max: props.whole.to, along: "x" } as const;
  const digits = () => (props.view.to - props.view.from) / 500;
  return (
    <g class="view-frame">
      <Grip
        {...common}
        areas={[{ left: left(), right: right(), top, bottom: props.bottom + 3 }]}
        name="View"
        value={props.view.from}
        valueText={`${formatTime(props.view.from, digits())} to ${formatTime(props.view.to, digits())}`}
        onGrab={grab}
        onDrag={(dx) => props.asking.view(panned(start, props.whole, seconds(dx)))}
        onStep={(direction, isLarge) =>
          props.asking.view(
            panned(
              props.asking.current(),
              props.whole,
              direction * (isLarge ? 0.9 : 0.15) * (props.view.to - props.view.from),
            ),
          )
        }
        onDoubleTap={() => props.asking.view(props.whole)}
      >
        <rect class="view-frame-line" x={left()} y={top} width={width()} height={props.bottom + 3 - top} rx="2" />
      </Grip>
      <For each={["from", "to"] as const}>
        {(edge) => (
          <Grip
            {...common}
            areas={[edgeArea(edge === "from" ? left() : right(), edge, width(), props.bottom)]}
            name={edge === "from" ? "Start of the view" : "End of the view"}
            value={props.view[edge]}
            valueText={formatTime(props.view[edge], digits())}
            onGrab={grab}
            onDrag={(dx) => resize(edge, seconds(dx), start)}
            onStep={(direction, isLarge) => resize(edge, direction * seconds(isLarge ? 20 : 2), props.asking.current())}
          >
            <path
              class="view-frame-edge"
              d={`M${edge === "from" ? left() : right()} ${linesTop + 8}V${props.bottom - 8}`}
            />
          </Grip>
        )}
      </For>
    </g>
  );
};

/** Reaches outwards, and inwards no further than leaves the middle free to be dragged. */
function edgeArea(x: number, edge: "from" | "to", width: number, bottom: number) {
  const inwards = Math.min(edgeReach / 2, width / 3);
  const outwards = 2 * edgeReach - inwards;
  const [left, right] = edge === "from" ? [x - outwards, x + inwards] : [x - inwards, x + outwards];
  return { left, right, top: linesTop, bottom };
}
