// What was assumed of a file, each thing changeable. An empty field leaves it to the reader.

import { type Component, createUniqueId, For, type JSX, Show } from "solid-js";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { Preview } from "../../capture/preview.ts";
import { numberFrom } from "../parts/number-from.ts";

export type Changed = { readonly [K in keyof ReadChoices]?: ReadChoices[K] | undefined };

export interface ChoiceProps {
  readonly preview: Preview;
  readonly choices: ReadChoices;
  readonly onChange: (part: Changed) => void;
}

const delimiters = [
  [",", "comma"],
  [";", "semicolon"],
  ["\t", "tab"],
  ["|", "upright bar"],
  [" ", "blanks"],
] as const;

const timeUnits = [
  [1, "seconds"],
  [1e-3, "milliseconds"],
  [1e-6, "microseconds"],
  [1e-9, "nanoseconds"],
  [60, "minutes"],
  [3600, "hours"],
  [86_400, "days"],
] as const;

export const ChoiceFields: Component<ChoiceProps> = (props) => {
  const asks = (about: string) => props.preview.questions.some((question) => question.about === about);
  const isWave = () => props.preview.format.startsWith("WAV");
  const needsLayout = () => asks("layout") || props.choices.layout !== undefined;
  return (
    <div class="choice-grid">
      <Show when={props.preview.members.length > 1}>
        <Field name="File in the archive">
          {(id) => (
            <select
              id={id}
              value={props.choices.member ?? ""}
              onChange={(event) => props.onChange({ member: event.currentTarget.value || undefined })}
            >
              <option value="">Choose …</option>
              <For each={props.preview.members}>
                {({ name }) => (
                  <option value={name} selected={name === props.choices.member}>
                    {name}
                  </option>
                )}
              </For>
            </select>
          )}
        </Field>
      </Show>
      <Show when={asks("time") || props.choices.rate !== undefined || props.preview.assumed?.timeColumn === null}>
        <NumberField
          name="Samples per second"
          value={props.choices.rate}
          onChange={(rate) => props.onChange({ rate: rate !== null && rate > 0 ? rate : undefined })}
        />
      </Show>
      <Show when={needsLayout()}>
        <Field name={isWave() ? "Another full scale" : "Layout of the raw numbers"}>
          {(id) => (
            <input
              id={id}
              value={props.choices.layout ?? ""}
              placeholder={isWave() ? "scale=2.5 unit=V" : "f32le channels=2 rate=1000"}
              onInput={(event) => props.onChange({ layout: event.currentTarget.value.trim() || undefined })}
            />
          )}
        </Field>
      </Show>
      <Show when={props.preview.assumed}>
        <TextFields {...props} />
      </Show>
      <NumberField
        name="A number that means “no value”"
        value={props.choices.missing}
        onChange={(missing) => props.onChange({ missing: missing ?? undefined })}
      />
    </div>
  );
};

/** Separator, decimal mark, header and time of delimited text. */
const TextFields: Component<ChoiceProps> = (props) => {
  const assumed = () => props.preview.assumed!;
  return (
    <>
      <Field name="Columns are set apart by">
        {(id) => (
          <select
            id={id}
            value={assumed().delimiter}
            onChange={(event) => props.onChange({ delimiter: event.currentTarget.value })}
          >
            <For each={delimiters}>{([mark, word]) => <option value={mark}>{word}</option>}</For>
          </select>
        )}
      </Field>
      <Field name="Decimal mark">
        {(id) => (
          <select
            id={id}
            value={assumed().decimalMark}
            onChange={(event) => props.onChange({ decimalMark: event.currentTarget.value === "," ? "," : "." })}
          >
            <option value=".">point</option>
            <option value=",">comma</option>
          </select>
        )}
      </Field>
      <Field name="First row">
        {(id) => (
          <select
            id={id}
            value={assumed().hasHeader ? "names" : "numbers"}
            onChange={(event) => props.onChange({ hasHeader: event.currentTarget.value === "names" })}
          >
            <option value="names">names of the columns</option>
            <option value="numbers">numbers already</option>
          </select>
        )}
      </Field>
      <Show when={props.preview.columns.length > 0}>
        <Field name="Time is in">
          {(id) => (
            <select
              id={id}
              value={assumed().timeColumn ?? ""}
              onChange={(event) => props.onChange({ timeColumn: event.currentTarget.value || undefined })}
            >
              <option value="">no column: even steps</option>
              <For each={props.preview.columns}>
                {({ name }) => (
                  <option value={name} selected={name === assumed().timeColumn}>
                    {name === assumed().timeColumn && assumed().timeForm === "several columns"
                      ? `${name} and those before it`
                      : name}
                  </option>
                )}
              </For>
            </select>
          )}
        </Field>
      </Show>
      <Show when={assumed().timeUnit !== null}>
        <Field name="Unit of the time">
          {(id) => (
            <select
              id={id}
              value={assumed().timeUnit ?? 1}
              onChange={(event) => props.onChange({ timeUnit: Number(event.currentTarget.value) })}
            >
              <For each={timeUnits}>{([seconds, word]) => <option value={seconds}>{word}</option>}</For>
            </select>
          )}
        </Field>
      </Show>
    </>
  );
};

const Field: Component<{ readonly name: string; readonly children: (id: string) => JSX.Element }> = (props) => {
  const id = createUniqueId();
  return (
    <div class="field">
      <label for={id}>{props.name}</label>
      {props.children(id)}
    </div>
  );
};

const NumberField: Component<{
  readonly name: string;
  readonly value: number | undefined;
  readonly onChange: (value: number | null) => void;
}> = (props) => (
  <Field name={props.name}>
    {(id) => (
      <input
        id={id}
        inputmode="decimal"
        value={props.value ?? ""}
        onInput={(event) => props.onChange(numberFrom(event.currentTarget.value))}
      />
    )}
  </Field>
);
