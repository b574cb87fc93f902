// Notes on the sheet: words, and the point their leader goes to, by a touch on the sheet or as numbers.

import { type Component, createUniqueId, For, Show } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { type NoteSide, noteSides, type SheetLane, type SheetNote } from "../../report/exhibit/sheet.ts";
import { storedUnit } from "../../signal/written/writing.ts";
import { NumberField } from "../parts/NumberField.tsx";

const sideWords: Readonly<Record<NoteSide, string>> = {
  "above-right": "above, right",
  "above-left": "above, left",
  "below-right": "below, right",
  "below-left": "below, left",
};

/** Of the view, or of the lane's scale: what a point is set by, and no finer. */
const finest = 1 / 1000;
const heightOf = (lane: SheetLane | undefined): number => (lane ? lane.scale[1] - lane.scale[0] : 1);

export interface NoteFieldsProps {
  readonly note: SheetNote;
  readonly number: number;
  readonly lanes: readonly SheetLane[];
  readonly view: Span;
  readonly isPlacing: boolean;
  readonly onPlacing: () => void;
  readonly onChange: (part: Partial<SheetNote>) => void;
  readonly onRemove: () => void;
}

export const NoteFields: Component<NoteFieldsProps> = (props) => {
  const text = createUniqueId();
  const lane = () => props.lanes.find(({ id }) => id === props.note.laneId);
  const unit = () => storedUnit(lane()?.unit ?? "");
  return (
    <fieldset class="exhibit-part">
      <legend>Note {props.number}</legend>
      <div class="field">
        <label for={text}>Words</label>
        <textarea
          id={text}
          rows={2}
          maxLength={160}
          value={props.note.text}
          onInput={(event) => props.onChange({ text: event.currentTarget.value })}
        />
      </div>
      <div class="field-row">
        <button type="button" aria-pressed={props.isPlacing} onClick={() => props.onPlacing()}>
          Point by touch
        </button>
        <button type="button" class="danger" onClick={() => props.onRemove()}>
          Remove note {props.number}
        </button>
      </div>
      <Show when={props.isPlacing}>
        <p role="status">Touch the sheet where note {props.number} should point, or type the place:</p>
      </Show>
      <div class="field-row">
        <NumberField
          name="Time, s"
          value={props.note.at.time}
          step={(props.view.to - props.view.from) * finest}
          onNumber={(time) => time !== null && props.onChange({ at: { ...props.note.at, time } })}
        />
        <NumberField
          name={unit() === "" ? "Level" : `Level, ${unit()}`}
          value={props.note.at.level}
          step={heightOf(lane()) * finest}
          onNumber={(level) => level !== null && props.onChange({ at: { ...props.note.at, level } })}
        />
      </div>
      <Standing {...props} />
    </fieldset>
  );
};

/** The lane that it points into, and on which side of the point its words stand. */
const Standing: Component<NoteFieldsProps> = (props) => {
  const [lane, side] = [createUniqueId(), createUniqueId()];
  return (
    <div class="field-row">
      <div class="field">
        <label for={lane}>Lane</label>
        <select id={lane} onChange={(event) => props.onChange(inLane(event.currentTarget.value, props))}>
          <For each={props.lanes}>
            {({ id, title }) => (
              <option value={id} selected={id === props.note.laneId}>
                {title}
              </option>
            )}
          </For>
        </select>
      </div>
      <div class="field">
        <label for={side}>Words stand</label>
        <select id={side} onChange={(event) => props.onChange({ side: event.currentTarget.value as NoteSide })}>
          <For each={noteSides}>
            {(option) => (
              <option value={option} selected={option === props.note.side}>
                {sideWords[option]}
              </option>
            )}
          </For>
        </select>
      </div>
    </div>
  );
};

/** A level of another lane means nothing here: the middle of the new lane's scale. */
function inLane(laneId: string, { lanes, note }: NoteFieldsProps): Partial<SheetNote> {
  const [low, high] = lanes.find(({ id }) => id === laneId)?.scale ?? [0, 1];
  return { laneId, at: { ...note.at, level: (low + high) / 2 } };
}
