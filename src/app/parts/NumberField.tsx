// A number with its name and unit, typed as people type it; what cannot be taken stays in the field, with the reason beside it.

import { type Component, createEffect, createMemo, createUniqueId } from "solid-js";
import { decimalsOfStep } from "../../signal/written/digits.ts";
import { numberFrom } from "../../signal/written/typed-number.ts";
import { numberIn } from "./number-from.ts";

interface NumberProps {
  readonly name: string;
  /** Null: the field is empty. */
  readonly value: number | null;
  readonly onNumber: (value: number | null) => void;
  /** An empty field says something; else the last number comes back into it. */
  readonly mayBeEmpty?: boolean;
  /** What is worth telling apart where the number stands: it is shown no finer. What is typed stays as it is typed. */
  readonly step?: number;
  /** Told at each key stroke, not only when it is left; null while it is no number that can be taken. */
  readonly isLive?: boolean;
  /** Why a number cannot be taken; null where it can. */
  readonly isRight?: (value: number) => string | null;
}

export const NumberField: Component<NumberProps> = (props) => {
  const id = createUniqueId();
  let field!: HTMLInputElement;
  const value = createMemo(() => props.value);
  const isRight = (typed: number) => props.isRight?.(typed) ?? null;
  const meant = () => {
    const typed = numberFrom(field.value);
    return typed !== null && isRight(typed) === null ? typed : null;
  };
  // What is being typed is not written over by what it means.
  createEffect(() => {
    const now = value();
    if (meant() !== now) field.value = written(now, props.step);
  });
  const take = () => {
    const typed = numberIn(field, isRight);
    if (typed === undefined) return;
    if (typed === null && !props.mayBeEmpty) field.value = written(props.value, props.step);
    else props.onNumber(typed);
  };
  return (
    <div class="field">
      <label for={id}>{props.name}</label>
      <input
        ref={field}
        id={id}
        inputmode="decimal"
        onInput={() => props.isLive && props.onNumber(meant())}
        onChange={take}
      />
    </div>
  );
};

const written = (value: number | null, step: number | undefined): string => {
  if (value === null) return "";
  if (step !== undefined) return String(Number(value.toFixed(decimalsOfStep(step))));
  return String(Number.isInteger(value) ? value : Number(value.toPrecision(6)));
};
