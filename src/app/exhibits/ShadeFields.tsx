// A span of time shaded through all lanes, with a name.

import { type Component, createUniqueId, Show } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { SheetShade } from "../../report/exhibit/sheet.ts";
import { NumberField } from "../parts/NumberField.tsx";

interface Props {
  readonly shade: SheetShade | null;
  readonly view: Span;
  readonly onChange: (shade: SheetShade | null) => void;
}

/** The middle third, to begin with. */
function firstShade({ from, to }: Span): SheetShade {
  const third = (to - from) / 3;
  return { span: { from: from + third, to: to - third }, label: "" };
}

export const ShadeFields: Component<Props> = (props) => {
  const name = createUniqueId();
  return (
    <fieldset class="exhibit-part">
      <legend>
        <label class="check">
          <input
            type="checkbox"
            checked={props.shade !== null}
            onChange={(event) => props.onChange(event.currentTarget.checked ? firstShade(props.view) : null)}
          />
          Shade a span
        </label>
      </legend>
      <Show when={props.shade}>
        {(shade) => (
          <>
            <div class="field-row">
              <NumberField
                name="From, s"
                value={shade().span.from}
                step={(props.view.to - props.view.from) / 1000}
                onNumber={(from) => from !== null && props.onChange({ ...shade(), span: { ...shade().span, from } })}
              />
              <NumberField
                name="To, s"
                value={shade().span.to}
                step={(props.view.to - props.view.from) / 1000}
                onNumber={(to) => to !== null && props.onChange({ ...shade(), span: { ...shade().span, to } })}
              />
            </div>
            <div class="field">
              <label for={name}>Its name</label>
              <input
                id={name}
                maxLength={60}
                value={shade().label}
                onInput={(event) => props.onChange({ ...shade(), label: event.currentTarget.value })}
              />
            </div>
          </>
        )}
      </Show>
    </fieldset>
  );
};
