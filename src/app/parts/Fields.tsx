// A labelled line, a labelled box of text, and a choice of one: what forms on paper are made of.

import { type Component, createUniqueId, For, Show } from "solid-js";

interface TextProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** Stands below the field: what can be told of what was typed, or what it is for. */
  readonly hint?: string | undefined;
  readonly hintIsBad?: boolean;
  readonly type?: "text" | "date" | "datetime-local";
  readonly rows?: number;
  readonly most?: number;
  readonly placeholder?: string;
}

/** One line, or a box where `rows` is given. Every key stroke is passed on. */
export const TextField: Component<TextProps> = (props) => {
  const [field, hint] = [createUniqueId(), createUniqueId()];
  const about = () => (props.hint ? hint : undefined);
  return (
    <div class="field">
      <label for={field}>{props.label}</label>
      <Show
        when={props.rows}
        fallback={
          <input
            id={field}
            type={props.type ?? "text"}
            value={props.value}
            maxLength={props.most ?? 500}
            placeholder={props.placeholder}
            aria-describedby={about()}
            onInput={(event) => props.onChange(event.currentTarget.value)}
          />
        }
      >
        <textarea
          id={field}
          rows={props.rows}
          value={props.value}
          maxLength={props.most ?? 5000}
          placeholder={props.placeholder}
          aria-describedby={about()}
          onInput={(event) => props.onChange(event.currentTarget.value)}
        />
      </Show>
      <Show when={props.hint}>
        <p id={hint} class={props.hintIsBad ? "hint bad" : "hint"}>
          {props.hint}
        </p>
      </Show>
    </div>
  );
};

export function PickField<T extends string>(props: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [value: T, name: string])[];
  readonly onChange: (value: T) => void;
}) {
  const field = createUniqueId();
  return (
    <div class="field">
      <label for={field}>{props.label}</label>
      <select id={field} onChange={(event) => props.onChange(event.currentTarget.value as T)}>
        <Options value={props.value} options={props.options} />
      </select>
    </div>
  );
}

/** What a select offers, with the chosen one marked: a value that is set before its options are there would be lost. */
export const Options: Component<{
  readonly value: string;
  readonly options: readonly (readonly [value: string, name: string])[];
}> = (props) => (
  <For each={props.options}>
    {([value, name]) => (
      <option value={value} selected={value === props.value}>
        {name}
      </option>
    )}
  </For>
);
