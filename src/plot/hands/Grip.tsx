// A thing on the traces that can be taken hold of: by pointer in at least 44 px, by keyboard as a slider.

import { type Component, createSignal, For, type JSX } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";
import { beginDrag } from "./drag.ts";

export interface GripProps {
  readonly areas: readonly Box[];
  readonly name: string;
  readonly value: number;
  readonly valueText: string;
  readonly min: number;
  readonly max: number;
  /** The way its keys move it. */
  readonly along: "x" | "y";
  /** Pixels since it was taken; `isFinal` once, at the end. */
  readonly onDrag: (dx: number, dy: number, isFinal: boolean) => void;
  /** One step by key, backwards or forwards; several of them end in onSettled. */
  readonly onStep: (direction: -1 | 1, isLarge: boolean) => void;
  readonly onSettled?: () => void;
  readonly onTap?: () => void;
  readonly onGrab?: () => void;
  /** Other keys; true when the key meant something. */
  readonly onKey?: (key: string) => boolean;
  readonly onDoubleTap?: () => void;
  readonly class?: string;
  readonly children?: JSX.Element;
}

const steps: Readonly<Record<string, Readonly<Record<string, -1 | 1>>>> = {
  x: { ArrowLeft: -1, ArrowRight: 1 },
  y: { ArrowDown: -1, ArrowUp: 1 },
};

export const Grip: Component<GripProps> = (props) => {
  const [isStepping, setStepping] = createSignal(false);
  const settle = () => {
    if (isStepping()) props.onSettled?.();
    setStepping(false);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const step = steps[props.along]?.[event.key];
    if (step !== undefined) {
      setStepping(true);
      props.onStep(step, event.shiftKey);
    } else if (event.ctrlKey || event.metaKey || event.altKey || !props.onKey?.(event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const onPointerDown = (event: PointerEvent & { currentTarget: SVGGElement }) => {
    event.currentTarget.focus({ preventScroll: true });
    beginDrag(event, {
      onDrag: (dx, dy, isFinal) => props.onDrag(dx, dy, isFinal),
      onTap: props.onTap,
      onDoubleTap: props.onDoubleTap,
      onGrab: props.onGrab,
    });
  };
  return (
    <g
      class={`grip grip-${props.along} ${props.class ?? ""}`}
      role="slider"
      tabindex="0"
      aria-label={props.name}
      aria-orientation={props.along === "x" ? "horizontal" : "vertical"}
      aria-valuenow={props.value}
      aria-valuetext={props.valueText}
      aria-valuemin={props.min}
      aria-valuemax={props.max}
      on:pointerdown={onPointerDown}
      onKeyDown={onKeyDown}
      onKeyUp={settle}
      onBlur={settle}
    >
      <For each={props.areas}>
        {(area) => (
          <rect
            class="grip-area"
            x={area.left}
            y={area.top}
            width={Math.max(0, area.right - area.left)}
            height={Math.max(0, area.bottom - area.top)}
          />
        )}
      </For>
      {props.children}
    </g>
  );
};
