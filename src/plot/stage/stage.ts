// What lanes, overlays and gestures share: sizes, boxes, scales, and the way from pixels to seconds and units.

import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup, onMount, untrack } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import { fromPixel, type Mapping, mapping } from "../../drawing/paths.ts";
import { glide, type Ranges, sameRanges, wantedRanges } from "./fit.ts";
import { frame } from "./frame.ts";
import { keyRows } from "./lane-keys.ts";
import { gutter, headInset, laneAt, laneBoxes, margin, plotBox, type Size } from "./layout.ts";
import type { LaneStackProps, Range, Spot } from "./types.ts";

export interface Stage {
  readonly size: Accessor<Size>;
  readonly boxes: Accessor<ReadonlyMap<string, Box>>;
  /** The parts of the lanes that their scales span. */
  readonly plots: Accessor<ReadonlyMap<string, Box>>;
  /** Scales as drawn now: on their way to those wanted. */
  readonly ranges: Accessor<Ranges>;
  /** Seconds to pixels. */
  readonly x: Accessor<Mapping>;
  /** A lane's unit to pixels; reads as a signal. */
  y(laneId: string): Mapping;
  /** Seconds that one pixel spans. */
  readonly secondsPerPixel: Accessor<number>;
  /** The lane under a point, or the nearest, and the time and level there. */
  spotAt(x: number, y: number): { readonly laneId: string; readonly spot: Spot } | null;
}

export function createStage(props: LaneStackProps, element: () => HTMLElement): Stage {
  const size = createSize(element);
  const boxes = createMemo(() => laneBoxes(size(), props.lanes));
  const plots = createMemo(() => {
    const names = size().width - gutter - headInset.left - margin - headInset.right;
    return new Map(props.lanes.map((lane) => [lane.id, plotBox(boxes().get(lane.id)!, keyRows(lane, names))]));
  });
  const ranges = createRanges(props);
  const plotWidth = () => Math.max(1, size().width - gutter - margin);
  const x = createMemo(() => mapping(props.view.from, props.view.to, gutter, gutter + plotWidth()));
  const y = (laneId: string) => {
    const box = plots().get(laneId);
    const [low, high] = ranges().get(laneId) ?? [0, 1];
    return mapping(low, high, box?.bottom ?? 1, box?.top ?? 0);
  };
  createEffect(() => {
    if (size().width > 0) props.onWidth(Math.round(plotWidth() * devicePixelRatio));
  });
  return {
    size,
    boxes,
    plots,
    ranges,
    x,
    y,
    secondsPerPixel: () => (props.view.to - props.view.from) / plotWidth(),
    spotAt: (px, py) => {
      const laneId = laneAt(boxes(), py);
      return laneId === null ? null : { laneId, spot: { time: fromPixel(x(), px), level: fromPixel(y(laneId), py) } };
    },
  };
}

/** Size of an element, followed. */
export function createSize(element: () => HTMLElement): Accessor<Size> {
  const [size, setSize] = createSignal<Size>({ width: 0, height: 0 }, { equals: sameSize });
  onMount(() => {
    const measure = () => setSize({ width: element().clientWidth, height: element().clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(element());
    measure();
    onCleanup(() => observer.disconnect());
  });
  return size;
}

const sameSize = (a: Size, b: Size): boolean => a.width === b.width && a.height === b.height;

function createRanges(props: LaneStackProps): Accessor<Ranges> {
  const none: Ranges = new Map();
  const wanted = createMemo<Ranges>((before) => {
    const next = wantedRanges(props.lanes, props.windows, props.view, before);
    return sameRanges(before, next) ? before : next;
  }, none);
  const [shown, setShown] = createSignal<Ranges>(none);
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const step = () => {
    const goal = untrack(wanted);
    const next = setShown(calm.matches ? goal : glide(untrack(shown), goal));
    if (next !== goal) frame.next(step);
  };
  createEffect(
    on(wanted, (ranges) => {
      if (untrack(shown).size === 0 || calm.matches) setShown(ranges);
      else frame.queue(step);
      props.onScales?.(ranges);
    }),
  );
  onCleanup(() => frame.drop(step));
  return shown;
}

/** A scale dragged along: every level moves with the pointer by `pixels`, down being positive. */
export function draggedRange(range: Range, pixels: number, height: number): Range {
  const by = ((range[1] - range[0]) * pixels) / height;
  return [range[0] + by, range[1] + by];
}

/** A scale spanning `factor` times as much, the level `at` staying where it is. */
export function scaledRange([low, high]: Range, at: number, factor: number): Range {
  return [at - (at - low) * factor, at + (high - at) * factor];
}
