// The reference under the hand: slid along by a drag on the lanes, and blinked to. What is seen and by how much it lies shifted
// stands under the lanes.

import { type Component, Show } from "solid-js";
import { readingInWords } from "../../signal/written/reading-text.ts";
import { useDimensions } from "../dimensions/dimensions.ts";
import { useComparing } from "./comparing.ts";

export const ReferenceTools: Component = () => {
  const dimensions = useDimensions();
  const comparing = useComparing();
  const { blinking } = comparing;
  const isSliding = () => dimensions.tool() === "slide";
  return (
    <Show when={comparing.reference()}>
      <div class="group">
        <button
          type="button"
          aria-pressed={isSliding()}
          title="Slide the reference along the time axis"
          onClick={() => dimensions.setTool(isSliding() ? "pan" : "slide")}
        >
          Slide
        </button>
        <button
          type="button"
          aria-pressed={blinking.seen() !== null}
          title="Show suspect and reference in turn"
          onClick={() => (blinking.seen() === null ? blinking.start() : blinking.stop())}
        >
          Blink
        </button>
      </div>
    </Show>
  );
};

/** Under the lanes, so that neither their keys nor the traces are covered while it lasts. */
export const ReferenceBar: Component = () => {
  const dimensions = useDimensions();
  const comparing = useComparing();
  const { blinking } = comparing;
  const isSliding = () => dimensions.tool() === "slide";
  const shifted = () => {
    const reading = comparing.shift()?.shift;
    return reading && reading.value !== null ? `shifted by ${readingInWords(reading)}` : "not lined up yet";
  };
  return (
    <Show when={isSliding() || blinking.seen()}>
      <section class="below-bar" aria-label="Reference">
        <Show when={isSliding()}>
          <p>Drag the reference along: {shifted()}</p>
        </Show>
        <Show when={blinking.seen()}>
          {(seen) => (
            <button type="button" title="Show the other one" onClick={blinking.turn}>
              {seen() === "suspect" ? "Suspect" : `Reference: ${comparing.reference()?.name}`}
            </button>
          )}
        </Show>
      </section>
    </Show>
  );
};
