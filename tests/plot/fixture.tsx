// A bench with two sensors and a throttle, its state held in signals, and hands for it.

import { render } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import { createStore } from "solid-js/store";
import { LaneStack } from "../../src/plot/lanes/LaneStack.tsx";
import type {
  DimensionEvent,
  DimensionLook,
  LaneLook,
  LaneStackProps,
  TraceWindow,
  View,
} from "../../src/plot/stage/types.ts";
import { measured } from "../../src/signal/numbers/reading.ts";

export const whole = { from: 0, to: 40 };

/** Colours that cannot be confused when a canvas is read back. */
const theme = {
  sheet: "#ffffff",
  ink: "#000000",
  soft: "#555555",
  hair: "#dddddd",
  grid: "#eeeeee",
  front: "#ff0000",
  rear: "#0000ff",
  other: "#008000",
  accent: "#00604c",
  open: "#7a5b00",
};

export function dress(): void {
  for (const [name, colour] of Object.entries(theme)) document.documentElement.style.setProperty(`--${name}`, colour);
}

// Events made by script belong to no real pointer, and capturing one of those throws.
Element.prototype.setPointerCapture = () => {};

export const lanes: readonly LaneLook[] = [
  {
    id: "o2",
    title: "Oxygen sensors",
    unit: "V",
    layers: [
      { form: "line", source: "own", channelId: "front", label: "front", unit: "V", look: "front" },
      { form: "line", source: "own", channelId: "rear", label: "rear", unit: "V", look: "rear" },
    ],
    scale: "fit",
    share: 0.7,
    guides: [0.45],
  },
  {
    id: "throttle",
    title: "Throttle",
    namesTrace: true,
    unit: "%",
    layers: [{ form: "line", source: "own", channelId: "throttle", label: "Throttle", unit: "%", look: "other" }],
    scale: "fit",
    share: 0.3,
    guides: [],
  },
];

/** Samples every `step` seconds of the whole span. */
export function windowOf(channelId: string, step: number, value: (time: number) => number): TraceWindow {
  const times = Float64Array.from({ length: Math.round(whole.to / step) + 1 }, (_, i) => i * step);
  return { channelId, times, values: times.map(value), dense: false };
}

export const windows: ReadonlyMap<string, TraceWindow> = new Map(
  [
    windowOf("front", 0.1, () => 0.8),
    windowOf("rear", 0.25, (time) => (time > 9.9 && time < 15.1 ? Number.NaN : 0.2)),
    windowOf("throttle", 0.5, (time) => time),
  ].map((window) => [window.channelId, window]),
);

export const delay: DimensionLook = {
  id: "delay",
  kind: "time",
  laneId: "o2",
  from: { time: 12, level: 0.45 },
  to: { time: 14, level: 0.45 },
  place: 0.6,
  label: "front to rear",
  reading: measured(2, [1.9, 2.1], "s"),
  isCursor: true,
};

export interface Bench {
  readonly stack: HTMLElement;
  readonly container: HTMLElement;
  readonly views: View[];
  readonly events: DimensionEvent[];
  readonly scales: ReadonlyMap<string, readonly [number, number]>[];
  readonly cursors: (number | null)[];
  /** Of them, those that stay. */
  readonly kept: (number | null)[];
  readonly held: (number | null)[];
  readonly fingers: (string | null)[];
  view(): View;
  set(props: Partial<LaneStackProps>): void;
}

export async function openBench(props: Partial<LaneStackProps> = {}): Promise<Bench> {
  dress();
  const [view, setView] = createSignal<View>(props.view ?? { from: 10, to: 20 });
  const [more, setMore] = createStore<{ props: Partial<LaneStackProps> }>({ props });
  const seen: Omit<Bench, "stack" | "container" | "view" | "set"> = {
    views: [],
    events: [],
    scales: [],
    cursors: [],
    kept: [],
    held: [],
    fingers: [],
  };
  const { container } = render(() => (
    <div style={{ width: "900px", height: "500px" }}>
      <LaneStack
        lanes={lanes}
        windows={windows}
        whole={whole}
        onWidth={() => {}}
        onScales={(ranges) => seen.scales.push(ranges)}
        tool="pan"
        dimensions={[]}
        selectedDimension={null}
        onDimension={(event) => seen.events.push(event)}
        readouts={[]}
        onCursor={(time, isKept) => (isKept ? seen.kept : seen.cursors).push(time)}
        onHoldInstant={(time) => seen.held.push(time)}
        onFinger={(laneId) => seen.fingers.push(laneId)}
        marks={{ evidence: [], evidenceCount: 0, evidenceLevels: [], evidenceSpan: null, stretches: [] }}
        span={null}
        {...more.props}
        view={view()}
        onView={(next) => {
          seen.views.push(next);
          setView(next);
        }}
      />
    </div>
  ));
  await frames(3);
  const stack = container.querySelector<HTMLElement>(".lane-stack")!;
  return { stack, container, ...seen, view, set: (next) => setMore("props", next) };
}

/** Waits for so many animation frames. */
export async function frames(count: number): Promise<void> {
  for (let i = 0; i < count; i++) await new Promise((resolve) => requestAnimationFrame(resolve));
}

export interface Hand {
  readonly id?: number;
  readonly kind?: "mouse" | "touch";
}

/** A pointer event at a place in the stack. */
export function touch(element: Element, type: string, [x, y]: readonly [number, number], hand: Hand = {}): void {
  const box = (element.closest(".lane-stack, .overview") ?? element).getBoundingClientRect();
  element.dispatchEvent(
    new PointerEvent(type, {
      bubbles: true,
      cancelable: true,
      pointerId: hand.id ?? 1,
      pointerType: hand.kind ?? "mouse",
      button: type === "pointermove" ? -1 : 0,
      buttons: 1,
      clientX: box.left + x,
      clientY: box.top + y,
    }),
  );
}

export function drag(element: Element, from: readonly [number, number], to: readonly [number, number]): void {
  touch(element, "pointerdown", from);
  touch(element, "pointermove", [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]);
  touch(element, "pointermove", to);
  touch(element, "pointerup", to);
}

export function press(element: Element, key: string, more: KeyboardEventInit = {}): void {
  element.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }));
  element.dispatchEvent(new KeyboardEvent("keyup", { key, bubbles: true, ...more }));
}
