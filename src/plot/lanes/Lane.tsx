// One lane: its sheet, its canvas, and its title with each channel named beside its line.

import { type Component, createEffect, createUniqueId, For, type JSX, onCleanup, onMount, Show } from "solid-js";
import { type BandLayer, bandKinds } from "../../drawing/layer.ts";
import { showUnit } from "../../signal/written/writing.ts";
import type { Colours } from "../stage/colours.ts";
import { frame } from "../stage/frame.ts";
import { keysOf } from "../stage/lane-keys.ts";
import { gutter, headInset, margin } from "../stage/layout.ts";
import type { Stage } from "../stage/stage.ts";
import type { TraceStyle } from "../stage/trace-style.ts";
import type { LaneLook, TraceWindow, View } from "../stage/types.ts";
import { canvasPadding, type LaneCanvas, makeLaneCanvas } from "./lane-canvas.ts";
import { chain, middleWidth } from "./lane-under.ts";

export interface LaneProps {
  readonly lane: LaneLook;
  readonly windows: ReadonlyMap<string, TraceWindow>;
  readonly view: View;
  readonly stage: Stage;
  readonly colours: Colours;
  readonly tools: JSX.Element;
}

export const Lane: Component<LaneProps> = (props) => {
  let host!: HTMLDivElement;
  const box = () => props.stage.boxes().get(props.lane.id) ?? { left: 0, top: 0, right: 1, bottom: 1 };
  const height = () => Math.round(box().bottom - box().top);
  const head = () => (props.stage.plots().get(props.lane.id)?.top ?? box().top) - box().top;

  onMount(() => {
    const canvas: LaneCanvas = makeLaneCanvas(host);
    const draw = () => {
      const range = props.stage.ranges().get(props.lane.id);
      const width = props.stage.size().width - margin;
      if (range === undefined || width < gutter + 10) return;
      canvas.show({ ...props, range, width, height: height(), head: head() });
    };
    createEffect(() => {
      void [
        props.lane,
        props.windows,
        props.view,
        props.colours,
        props.stage.ranges(),
        props.stage.size(),
        height(),
        head(),
      ];
      frame.queue(draw);
    });
    onCleanup(() => {
      frame.drop(draw);
      canvas.destroy();
    });
  });

  return (
    <section class="lane" aria-label={props.lane.title}>
      <div
        class="lane-sheet"
        style={{ left: `${gutter}px`, right: `${margin}px`, top: `${box().top}px`, height: `${height()}px` }}
      />
      <div class="lane-canvas" ref={host} style={{ top: `${box().top - canvasPadding}px` }} aria-hidden="true" />
      <header class="lane-head" style={{ ...headSides, top: `${box().top + 2}px` }}>
        <h2>
          <span class="lane-title" classList={{ "lane-of-another": props.lane.isOfAnother === true }}>
            {props.lane.title}
            {showUnit(props.lane.unit) && ", "}
          </span>
          {showUnit(props.lane.unit) && <span class="lane-unit">{showUnit(props.lane.unit)}</span>}
        </h2>
        <Keys lane={props.lane} />
        <div class="lane-tools">{props.tools}</div>
      </header>
    </section>
  );
};

const headSides = { left: `${gutter + headInset.left}px`, right: `${margin + headInset.right}px` };

const Keys: Component<{ readonly lane: LaneLook }> = (props) => {
  const keys = () => keysOf(props.lane);
  return (
    <ul class="lane-keys">
      <For each={keys().own}>{(style) => <TraceKey style={style} />}</For>
      <Show when={keys().behind[0]}>{(first) => <ReferenceKey name={first().trace.of!} styles={keys().behind} />}</Show>
      <For each={bandKinds(props.lane)}>
        {([label, bands]) => (
          <li class="lane-key-band">
            <For each={bands}>{(band) => <BandKey band={band} />}</For>
            {label}
          </li>
        )}
      </For>
    </ul>
  );
};

const Sample: Component<{ style: TraceStyle }> = (props) => (
  <svg class={`ink-${props.style.token}`} width="24" height="10" aria-hidden="true">
    <path d="M1 5H23" stroke-width={props.style.width} stroke-dasharray={props.style.dash.join(" ")} />
  </svg>
);

/** A piece of each line, then whose they are: its name where there is room. */
const ReferenceKey: Component<{ name: string; styles: readonly TraceStyle[] }> = (props) => (
  <li
    class="trace-behind"
    classList={{ "trace-unseen": props.styles.every(({ trace }) => trace.isUnseen === true) }}
    title={props.name}
  >
    <For each={props.styles}>{(style) => <Sample style={style} />}</For>
    Reference<span class="behind-name">: {props.name}</span>
  </li>
);

/** A piece of the line, as thick and as dashed as it is, then its name. */
const TraceKey: Component<{ style: TraceStyle }> = (props) => (
  <li
    class={`ink-${props.style.token}`}
    classList={{
      "trace-behind": props.style.trace.isBehind === true,
      "trace-unseen": props.style.trace.isUnseen === true,
    }}
  >
    <Sample style={props.style} />
    {props.style.trace.label}
  </li>
);

/** A piece of the hatched band with its median. */
const BandKey: Component<{ band: BandLayer }> = (props) => {
  const clip = createUniqueId();
  const lines = () =>
    [-10, -3, 4, 11, 18].map((x) => (props.band.look === "rear" ? `M${x} 12l12 -12` : `M${x} 0l12 12`)).join("");
  return (
    <svg class={`ink-${props.band.look}`} width="24" height="12" aria-hidden="true">
      <clipPath id={clip}>
        <rect width="24" height="12" />
      </clipPath>
      <rect width="24" height="12" class="band-key" />
      <g clip-path={`url(#${clip})`}>
        <Show when={!props.band.fill}>
          <path d={lines()} stroke-width="0.7" />
        </Show>
      </g>
      <Show when={props.band.middle}>
        <path d="M0 6H24" stroke-width={middleWidth[props.band.look]} stroke-dasharray={chain.join(" ")} />
      </Show>
    </svg>
  );
};
