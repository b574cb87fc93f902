// Cursors and dimensions as fields: typed values, snapping, a label, pinning. What the pointer does, the keyboard can.

import { type Component, createEffect, createMemo, For, Show } from "solid-js";
import type { Dimension } from "../../job/record/job.ts";
import { readingInWords } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { Fold } from "../parts/Fold.tsx";
import { useDimensions } from "./dimensions.ts";
import { EndField } from "./EndField.tsx";

export const DimensionList: Component = () => {
  const dimensions = useDimensions();
  const byId = createMemo(() => new Map(dimensions.all().map((d) => [d.id, d])));
  const ids = () => [...byId().keys()];
  return (
    <section aria-label="Dimensions">
      <h2>Dimensions</h2>
      <For each={ids()}>{(id) => <Show when={byId().get(id)}>{(d) => <DimensionFields dimension={d()} />}</Show>}</For>
      <div class="row">
        <button type="button" onClick={() => dimensions.placePair("time")}>
          Set a time pair
        </button>
        <button type="button" onClick={() => dimensions.placePair("level")}>
          Set a level pair
        </button>
      </div>
    </section>
  );
};

const DimensionFields: Component<{ readonly dimension: Dimension }> = (props) => {
  const { view } = useGround();
  const dimensions = useDimensions();
  const isSelected = () => dimensions.selected() === props.dimension.id;
  const name = () => props.dimension.label || (props.dimension.kind === "time" ? "Time pair" : "Level pair");
  let root!: HTMLDetailsElement;
  createEffect(() => {
    const asked = dimensions.asked();
    if (asked?.id !== props.dimension.id) return;
    dimensions.select(props.dimension.id);
    // It may be selected, and folded by hand.
    root.open = true;
    queueMicrotask(() => root.querySelector<HTMLInputElement>(`[data-field="${asked.field}"]`)?.focus());
  });
  const goThere = () => {
    dimensions.select(props.dimension.id);
    const { from, to } = spanOf(props.dimension);
    const { view: visible } = view;
    if (from < visible().from || to > visible().to) view.show({ from: from - 1, to: to + 1 });
  };
  return (
    <Fold
      ref={(element) => {
        root = element;
      }}
      isOpen={isSelected()}
      onUnfold={goThere}
      head={
        <>
          {name()}
          <span class="now">{readingInWords(props.dimension.reading)}</span>
        </>
      }
    >
      <label class="field wide">
        <span>Label</span>
        <input
          data-field="label"
          value={props.dimension.label}
          onInput={(event) => dimensions.rename(props.dimension.id, event.currentTarget.value)}
        />
      </label>
      <EndField dimension={props.dimension} end="from" />
      <EndField dimension={props.dimension} end="to" />
      <Show when={props.dimension.through}>{(through) => <p class="soft wide">{through()}</p>}</Show>
      <Show when={props.dimension.kind === "time" && perSecond(props.dimension)}>
        {(text) => <p class="soft wide">1 / time: {text()}</p>}
      </Show>
      <DimensionKeys dimension={props.dimension} />
    </Fold>
  );
};

const DimensionKeys: Component<{ readonly dimension: Dimension }> = (props) => {
  const { bench } = useGround();
  const dimensions = useDimensions();
  const isCursor = () => bench.state().cursors.some(({ id }) => id === props.dimension.id);
  return (
    <div class="row wide">
      <Show when={isCursor()}>
        <button type="button" onClick={() => dimensions.pin(props.dimension.kind, props.dimension.label)}>
          Pin
        </button>
      </Show>
      <button type="button" onClick={() => dimensions.remove(props.dimension.id)}>
        Remove
      </button>
    </div>
  );
};

const spanOf = ({ from, to }: Dimension) => ({
  from: Math.min(from.time, to.time),
  to: Math.max(from.time, to.time),
});

/** The frequency a time pair stands for, with the bounds turned over. */
function perSecond({ reading }: Dimension): string | null {
  const { value, low, high, grade } = reading;
  if (grade !== "measured" || value === null || low === null || high === null || low <= 0) return null;
  return readingInWords({ value: 1 / value, low: 1 / high, high: 1 / low, unit: "Hz", grade });
}
