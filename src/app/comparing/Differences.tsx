// The difference readings in plain words: both values, the ratio with its bounds, and whether it can be told.

import { type Component, createMemo, createSignal, For, Show } from "solid-js";
import type { Comparison, Difference } from "../../exhaust/comparing/comparison.ts";
import { readingInWords } from "../../signal/written/reading-text.ts";

export const Differences: Component<{ readonly comparison: Comparison }> = (props) => {
  const [showsAll, showAll] = createSignal(false);
  const known = createMemo(() => {
    const all = props.comparison.differences.filter(isKnown);
    return [...all.filter(({ fair }) => fair), ...all.filter(({ fair }) => !fair)];
  });
  const isTold = (one: Difference) => one.told !== "not-told-apart";
  /** Delay and stored oxygen always; of the rest, what differs. */
  const shown = () => (showsAll() ? known() : known().filter((one, i) => i < 2 || isTold(one)));
  return (
    <section aria-label="Differences">
      <h2>What differs</h2>
      <Show when={known().length > 0} fallback={<p class="soft">No reading stands in both recordings.</p>}>
        <ul class="differences">
          <For each={shown()}>{(one) => <DifferenceRow difference={one} />}</For>
        </ul>
        <Show when={known().length > shown().length || showsAll()}>
          <button type="button" class="plain" onClick={() => showAll(!showsAll())}>
            {showsAll() ? "Only what differs" : `All ${known().length} readings`}
          </button>
        </Show>
      </Show>
    </section>
  );
};

const DifferenceRow: Component<{ readonly difference: Difference }> = (props) => (
  <li classList={{ told: props.difference.told !== "not-told-apart" }}>
    <p class="what">
      {props.difference.label}: <strong>{props.difference.says}</strong>
    </p>
    <dl>
      <dt>suspect</dt>
      <dd>{readingInWords(props.difference.suspect)}</dd>
      <dt>reference</dt>
      <dd>{readingInWords(props.difference.reference)}</dd>
      <dt>{isRatio(props.difference) ? "ratio" : "difference"}</dt>
      <dd>{readingInWords(isRatio(props.difference) ? props.difference.ratio : props.difference.difference)}</dd>
    </dl>
  </li>
);

const isRatio = ({ ratio }: Difference) => ratio.low !== null || ratio.high !== null;
const isKnown = (one: Difference) => isRatio(one) || one.difference.low !== null || one.difference.high !== null;
