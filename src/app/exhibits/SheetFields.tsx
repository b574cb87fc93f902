// What the sheet says at the top and in its title block.

import { type Component, createUniqueId, For } from "solid-js";
import type { Vehicle } from "../../job/record/job.ts";
import type { ExhibitEdits } from "../../report/exhibit/edits.ts";
import { TickBoxes } from "../parts/TickBoxes.tsx";

const papers = ["A4", "Letter"] as const;
interface Props {
  readonly edits: ExhibitEdits;
  readonly vehicle: Vehicle;
  readonly onChange: (part: Partial<ExhibitEdits>) => void;
}

export const SheetFields: Component<Props> = (props) => {
  const [headline, subline, drawnBy] = [createUniqueId(), createUniqueId(), createUniqueId()];
  return (
    <>
      <div class="field">
        <label for={headline}>Headline</label>
        <textarea
          id={headline}
          rows={3}
          maxLength={220}
          value={props.edits.headline}
          onInput={(event) => props.onChange({ headline: event.currentTarget.value })}
        />
      </div>
      <div class="field">
        <label for={subline}>In plain words</label>
        <textarea
          id={subline}
          rows={2}
          maxLength={220}
          value={props.edits.subline}
          onInput={(event) => props.onChange({ subline: event.currentTarget.value })}
        />
      </div>
      <PaperChoice {...props} />
      <TickBoxes ticks={props.edits.ticks} vehicle={props.vehicle} onChange={(ticks) => props.onChange({ ticks })} />
      <div class="field">
        <label for={drawnBy}>Drawn by</label>
        <input
          id={drawnBy}
          autocomplete="name"
          value={props.edits.drawnBy}
          onInput={(event) => props.onChange({ drawnBy: event.currentTarget.value })}
        />
      </div>
    </>
  );
};

const PaperChoice: Component<Props> = (props) => (
  <fieldset class="choice-row">
    <legend>Paper</legend>
    <For each={papers}>
      {(paper) => (
        <label class="check">
          <input
            type="radio"
            name="paper"
            checked={props.edits.paper === paper}
            onChange={() => props.onChange({ paper })}
          />
          {paper}
        </label>
      )}
    </For>
  </fieldset>
);
