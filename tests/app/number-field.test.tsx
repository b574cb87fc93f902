// A number that is told at each key stroke stays as it is typed.

import { render } from "@solidjs/testing-library";
import { createSignal } from "solid-js";
import { expect, test } from "vitest";
import { NumberField } from "../../src/app/parts/NumberField.tsx";

test("0.05 is typed stroke by stroke into a field that takes no rate of 0", () => {
  // As the choices of a file are kept: anew at each stroke, and without a rate where it is none.
  const [choices, setChoices] = createSignal<{ readonly rate?: number }>({});
  const { getByLabelText } = render(() => (
    <NumberField
      name="Samples per second"
      value={choices().rate ?? null}
      onNumber={(rate) => setChoices(rate === null || rate <= 0 ? {} : { rate })}
      mayBeEmpty
      isLive
    />
  ));
  const field = getByLabelText("Samples per second") as HTMLInputElement;
  for (const stroke of "0.05") {
    field.value += stroke;
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
  }
  expect([field.value, choices().rate]).toEqual(["0.05", 0.05]);
  setChoices({ rate: 20 });
  expect(field.value).toBe("20");
});

test("a level that was pointed at stands no finer than it can be pointed at, and one that is typed as it is typed", () => {
  const [level, setLevel] = createSignal(0.54499);
  const { getByLabelText } = render(() => (
    <NumberField name="Level, V" value={level()} step={0.001} onNumber={(typed) => typed !== null && setLevel(typed)} />
  ));
  const field = getByLabelText("Level, V") as HTMLInputElement;
  expect(field.value).toBe("0.545");
  field.value = "0.5432";
  field.dispatchEvent(new Event("change", { bubbles: true }));
  expect([field.value, level()]).toEqual(["0.5432", 0.5432]);
});
