// The difference readings in plain words, by where they stand: both values, the ratio with its bounds, and whether it can be told.

import { type Component, createMemo, For, Show } from "solid-js";
import type { Comparison, Difference } from "../../exhaust/comparing/comparison.ts";
import { asRead } from "../../exhaust/terms/words.ts";
import { readingInWords } from "../../signal/written/reading-text.ts";
import { type Grouped, groupedDifferences, isRatio, isTold } from "./difference-groups.ts";

export const Differences: Component<{ readonly comparison: Comparison }> = (props) => {
  const groups = createMemo(() => groupedDifferences(props.comparison.differences));
  return (
    <section aria-label="Differences">
      <h2>What differs</h2>
      <Show when={groups().length > 0} fallback={<p class="soft">No reading stands in both recordings.</p>}>
        <For each={groups()}>{(grouped) => <Group grouped={grouped} />}</For>
      </Show>
    </section>
  );
};

const Group: Component<{ readonly grouped: Grouped }> = (props) => (
  <div class="difference-group">
    <h3>{props.grouped.group}</h3>
    <Show
      when={props.grouped.shown.length > 0}
      fallback={<p class="soft">Nothing that these recordings tell apart.</p>}
    >
      <ul class="differences">
        <For each={props.grouped.shown}>{(one) => <DifferenceRow difference={one} />}</For>
      </ul>
    </Show>
    <Show when={props.grouped.folded.length > 0}>
      <details>
        <summary>{more(props.grouped)}</summary>
        <ul class="differences">
          <For each={props.grouped.folded}>{(one) => <DifferenceRow difference={one} />}</For>
        </ul>
      </details>
    </Show>
  </div>
);

function more({ shown, folded }: Grouped): string {
  const untold = folded.filter((one) => !isTold(one)).length;
  const all = shown.length > 0 ? `${folded.length} more` : String(folded.length);
  if (untold === folded.length) return `${all} not told apart`;
  return untold === 0 ? all : `${all}, ${untold} of them not told apart`;
}

const DifferenceRow: Component<{ readonly difference: Difference }> = (props) => (
  <li classList={{ told: isTold(props.difference) }}>
    <p class="what">
      {props.difference.label}: <strong>{props.difference.says}</strong>
    </p>
    <dl>
      <dt>suspect</dt>
      <dd>{readingInWords(asRead(props.difference.reading, props.difference.suspect))}</dd>
      <dt>reference</dt>
      <dd>{readingInWords(asRead(props.difference.reading, props.difference.reference))}</dd>
      <dt>{isRatio(props.difference) ? "ratio" : "difference"}</dt>
      <dd>
        {readingInWords(
          isRatio(props.difference)
            ? props.difference.ratio
            : asRead(props.difference.reading, props.difference.difference),
        )}
      </dd>
    </dl>
  </li>
);
