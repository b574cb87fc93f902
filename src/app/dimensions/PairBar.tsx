// The pair in hand: its ends as fields, right below the lanes where the hand is.

import { type Component, Show } from "solid-js";
import { readingInWords } from "../../signal/written/reading-text.ts";
import { CloseIcon } from "../parts/icons.tsx";
import { createUnhurried } from "../parts/pressed.ts";
import { useDimensions } from "./dimensions.ts";
import { EndField } from "./EndField.tsx";

export const PairBar: Component = () => {
  const dimensions = useDimensions();
  const inHand = () => dimensions.all().find(({ id }) => id === dimensions.selected()) ?? null;
  const isCursor = () => dimensions.looks().some(({ id, isCursor }) => isCursor && id === dimensions.selected());
  const isThere = createUnhurried(() => inHand() !== null);
  const { snapping } = dimensions;
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
          <div class="row">
            <button
              type="button"
              aria-pressed={snapping.isOn()}
              title="A dragged end is set on what lights up beside it"
              onClick={() => snapping.setOn(!snapping.isOn())}
            >
              Snap
            </button>
            <Show when={isCursor()}>
              <button type="button" onClick={() => dimensions.pin(pair().kind, pair().label)}>
                Pin
              </button>
            </Show>
            <button type="button" onClick={() => dimensions.remove(pair().id)}>
              Remove
            </button>
            <button
              type="button"
              class="icon plain"
              aria-label="Let go of the pair"
              onClick={() => dimensions.select(null)}
            >
              <CloseIcon />
            </button>
          </div>
        </section>
      )}
    </Show>
  );
};
