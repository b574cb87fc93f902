// A number with its name and unit, typed as people type it; what cannot be taken stays in the field, with the reason beside it.

import { type Component, createEffect, createMemo, createUniqueId } from "solid-js";
import { numberFrom } from "../../signal/written/typed-number.ts";
import { numberIn } from "./number-from.ts";

interface NumberProps {
  readonly name: string;
  /** Null: the field is empty. */
  readonly value: number | null;
  readonly onNumber: (value: number | null) => void;
  /** An empty field says something; else the last number comes back into it. */
  readonly mayBeEmpty?: boolean;
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
    if (meant() !== now) field.value = written(now);
  });
  const take = () => {
    const typed = numberIn(field, isRight);
    if (typed === undefined) return;
    if (typed === null && !props.mayBeEmpty) field.value = written(props.value);
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

const written = (value: number | null): string => {
  if (value === null) return "";
  return String(Number.isInteger(value) ? value : Number(value.toPrecision(6)));
};
