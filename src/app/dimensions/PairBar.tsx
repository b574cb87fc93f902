// The pair in hand: its ends as fields, right below the lanes where the hand is.

import { type Component, Show } from "solid-js";
import type { Dimension } from "../../job/record/job.ts";
import { readingInWords } from "../../signal/written/reading-text.ts";
import { BinIcon, CloseIcon } from "../parts/icons.tsx";
import { createUnhurried } from "../parts/pressed.ts";
import { useDimensions } from "./dimensions.ts";
import { EndField } from "./EndField.tsx";

export const PairBar: Component = () => {
  const dimensions = useDimensions();
  const inHand = () => dimensions.all().find(({ id }) => id === dimensions.selected()) ?? null;
  const isThere = createUnhurried(() => inHand() !== null);
  return (
    <Show when={isThere() && inHand()}>
      {(pair) => (
        <section class="below-bar pair-bar" aria-label="Pair in hand">
          <p>
            <b>{pair().label || (pair().kind === "time" ? "Time pair" : "Level pair")}</b>
            <br />
            {readingInWords(pair().reading)}
            <Show when={pair().through}>
              {(through) => (
                <>
                  <br />
                  <span class="soft">{through()}</span>
                </>
              )}
            </Show>
          </p>
          <EndField dimension={pair()} end="from" />
          <EndField dimension={pair()} end="to" />
          <PairKeys id={pair().id} kind={pair().kind} label={pair().label} />
        </section>
      )}
    </Show>
  );
};

const PairKeys: Component<Pick<Dimension, "id" | "kind" | "label">> = (props) => {
  const dimensions = useDimensions();
  const isCursor = () => dimensions.looks().some(({ id, isCursor }) => isCursor && id === props.id);
  const { snapping } = dimensions;
  return (
    <div class="row pair-keys">
      <button
        type="button"
        aria-pressed={snapping.isOn()}
        title="A dragged end is set on what lights up beside it"
        onClick={() => snapping.setOn(!snapping.isOn())}
      >
        Snap
      </button>
      <Show when={isCursor()}>
        <button type="button" onClick={() => dimensions.pin(props.kind, props.label)}>
          Pin
        </button>
      </Show>
      <button type="button" class="icon" aria-label="Remove" title="Remove" onClick={() => dimensions.remove(props.id)}>
        <BinIcon />
      </button>
      <button type="button" class="icon plain" aria-label="Let go of the pair" onClick={() => dimensions.select(null)}>
        <CloseIcon />
      </button>
    </div>
  );
};
