// What was assumed of a file, each thing changeable. An empty field leaves it to the reader.

import { type Component, Show } from "solid-js";
import { isInRange } from "../../capture/model/layout.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import type { Preview } from "../../capture/preview.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { PickField } from "../parts/Fields.tsx";
import { NumberField } from "../parts/NumberField.tsx";
import { RawLayoutFields, wanted } from "./RawLayoutFields.tsx";

export type Changed = { readonly [K in keyof ReadChoices]?: ReadChoices[K] | undefined };

export interface ChoiceProps {
  readonly preview: Preview;
  readonly choices: ReadChoices;
  readonly onChange: (part: Changed) => void;
}

type Choice = readonly [value: string, name: string];

const delimiters: readonly Choice[] = [
  [",", "comma"],
  [";", "semicolon"],
  ["\t", "tab"],
  ["|", "upright bar"],
  [" ", "blanks"],
];

const decimalMarks = [
  [".", "point"],
  [",", "comma"],
] as const;

const firstRows = [
  ["names", "names of the columns"],
  ["numbers", "numbers already"],
] as const;

/** Seconds in one. */
const timeUnits: readonly Choice[] = [
  ["1", "seconds"],
  ["0.001", "milliseconds"],
  ["0.000001", "microseconds"],
  ["1e-9", "nanoseconds"],
  ["60", "minutes"],
  ["3600", "hours"],
  ["86400", "days"],
];

export const ChoiceFields: Component<ChoiceProps> = (props) => {
  const asks = (about: string) => props.preview.questions.some((question) => question.about === about);
  const isWave = () => props.preview.format.startsWith("WAV");
  const needsLayout = () => asks("layout") || props.choices.layout !== undefined;
  const isRaw = () => needsLayout() && !isWave();
  const members = (): readonly Choice[] => props.preview.members.map(({ name }) => [name, name]);
  return (
    <div class="choice-grid">
      <Show when={props.preview.members.length > 1}>
        <PickField
          label="File in the archive"
          value={props.choices.member ?? ""}
          options={[["", "Choose …"], ...members()]}
          onChange={(member) => props.onChange({ member: member || undefined })}
        />
      </Show>
      <Show
        when={
          !isRaw() && (asks("time") || props.choices.rate !== undefined || props.preview.assumed?.timeColumn === null)
        }
      >
        <NumberField
          name="Samples per second"
          value={props.choices.rate ?? null}
          isLive
          mayBeEmpty
          isRight={(rate) => (isInRange("rate", rate) ? null : wanted.rate)}
          onNumber={(rate) => props.onChange({ rate: rate ?? undefined })}
        />
      </Show>
      <Show when={needsLayout()}>
        <RawLayoutFields
          layout={props.choices.layout ?? ""}
          isScaleOnly={isWave()}
          onChange={(layout) => props.onChange({ layout: layout || undefined })}
        />
      </Show>
      <Show when={props.preview.assumed}>{(assumed) => <LayoutFields {...props} assumed={assumed()} />}</Show>
      <NumberField
        name="A number that means “no value”"
        value={props.choices.missing ?? null}
        isLive
        mayBeEmpty
        onNumber={(missing) => props.onChange({ missing: missing ?? undefined })}
      />
    </div>
  );
};

type TextProps = ChoiceProps & { readonly assumed: NonNullable<Preview["assumed"]> };

/** Separator, decimal mark, header and time of delimited text. */
const LayoutFields: Component<TextProps> = (props) => (
  <>
    <PickField
      label="Columns are set apart by"
      value={props.assumed.delimiter}
      options={delimiters}
      onChange={(delimiter) => props.onChange({ delimiter })}
    />
    <PickField
      label="Decimal mark"
      value={props.assumed.decimalMark}
      options={decimalMarks}
      onChange={(decimalMark) => props.onChange({ decimalMark })}
    />
    <PickField
      label="First row"
      value={props.assumed.hasHeader ? "names" : "numbers"}
      options={firstRows}
      onChange={(row) => props.onChange({ hasHeader: row === "names" })}
    />
    <Show when={props.preview.columns.length > 0}>
      <PickField
        label="Time is in"
        value={props.assumed.timeColumn ?? ""}
        options={[["", "no column: even steps"], ...timeColumns(props)]}
        onChange={(column) => props.onChange({ timeColumn: column || undefined })}
      />
    </Show>
    <Show when={props.assumed.timeUnit !== null}>
      <PickField
        label="Unit of the time"
        value={written(props.assumed.timeUnit!)}
        options={unitsWith(props.assumed.timeUnit!)}
        onChange={(seconds) => props.onChange({ timeUnit: Number(seconds) })}
      />
    </Show>
  </>
);

const written = (unit: number): string => timeUnits.find(([seconds]) => Number(seconds) === unit)?.[0] ?? String(unit);

/** With one that the file has beside the usual, such as ticks of 100 ns. */
const unitsWith = (unit: number): readonly Choice[] => {
  const isUsual = timeUnits.some(([seconds]) => Number(seconds) === unit);
  return isUsual ? timeUnits : [[written(unit), formatValue(unit, "s")], ...timeUnits];
};

const timeColumns = ({ preview, assumed }: TextProps): readonly Choice[] =>
  preview.columns.map(({ name }) => [
    name,
    name === assumed.timeColumn && assumed.timeForm === "several columns" ? `${name} and those before it` : name,
  ]);
