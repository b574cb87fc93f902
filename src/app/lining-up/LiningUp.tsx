// How another recording lies on this one's time: on what, shifted by how much, and moved by hand or by a typed value.

import { type Component, For, Show } from "solid-js";
import { type Shift, shiftByHand } from "../../exhaust/lining-up/line-up.ts";
import { formatExact, formatNumber } from "../../signal/written/digits.ts";
import { formatTime, readingInWords } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { numberIn } from "../parts/number-from.ts";
import { handShare, type Way } from "./ways.ts";

const nudges = [-0.1, -0.01, 0.01, 0.1] as const;

export interface LiningUpProps {
  /** "Reference", or the recording's name. */
  readonly whose: string;
  readonly shift: Shift | null;
  readonly ways: readonly Way[];
  readonly onWay: (way: Way) => void;
  readonly onShift: (shift: Shift) => void;
}

export const LiningUp: Component<LiningUpProps> = (props) => {
  const chosen = (id: string) => {
    const way = props.ways.find((one) => one.id === id);
    if (way) props.onWay(way);
  };
  const current = () => props.ways.find(({ id }) => id === props.shift?.way)?.id ?? "";
  return (
    <>
      <label class="field">
        <span>On</span>
        <select value={current()} onChange={(event) => chosen(event.currentTarget.value)}>
          <option value="" disabled>
            {props.shift?.says ?? "not yet"}
          </option>
          <For each={props.ways}>
            {(way) => (
              <option value={way.id} selected={way.id === current()}>
                {way.label}
              </option>
            )}
          </For>
        </select>
      </label>
      <Show when={props.shift}>
        {(shift) => (
          <>
            <p class="shift">
              {shift().shift.value === null
                ? `${props.whose}: ${shift().shift.because}`
                : `${props.whose} shifted by ${readingInWords(shift().shift)}`}
            </p>
            <Show when={shift().ambiguousBy}>
              {(other) => <p class="unlike">Another {formatTime(other(), 0.01)} away fits nearly as well.</p>}
            </Show>
            <ByHand by={shift().shift.value ?? 0} onShift={props.onShift} />
          </>
        )}
      </Show>
    </>
  );
};

const ByHand: Component<{ readonly by: number; readonly onShift: (shift: Shift) => void }> = (props) => {
  const { view } = useGround();
  const nudge = (step: number) => {
    const { from, to } = view.view();
    props.onShift(shiftByHand(props.by + step, handShare * (to - from)));
  };
  const type = (field: HTMLInputElement) => {
    const typed = numberIn(field);
    if (typeof typed === "number") props.onShift(shiftByHand(typed, halfOfLastDigit(field.value)));
  };
  return (
    <>
      <div class="row nudges">
        <For each={nudges}>
          {(step) => (
            <button
              type="button"
              aria-label={`${step < 0 ? "Earlier" : "Later"} by ${formatExact(Math.abs(step))} s`}
              onClick={() => nudge(step)}
            >
              {step < 0 ? "−" : "+"}
              {formatExact(Math.abs(step))}&nbsp;s
            </button>
          )}
        </For>
      </div>
      <label class="field">
        <span>Shift, s</span>
        <input inputmode="decimal" value={formatNumber(props.by, 3)} onChange={(event) => type(event.currentTarget)} />
      </label>
    </>
  );
};

/** A typed 0.32 says that it is neither 0.31 nor 0.33. */
function halfOfLastDigit(text: string): number {
  const decimals = /[.,](\d*)/.exec(text.trim())?.[1]?.length ?? 0;
  return 0.5 * 10 ** -decimals;
}
