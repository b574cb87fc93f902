// A reading with its bounds; touching it shows the evidence behind it. Every reading is a door.

import { type Component, Show } from "solid-js";
import type { Evidence, EvidenceKey } from "../../exhaust/terms/analysis.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { formatReading, readingAloud } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";

export const ReadingDoor: Component<{
  /** What it reads, in words: "Front, switching". */
  readonly name: string;
  readonly reading: Reading;
  readonly evidence?: Evidence | undefined;
  /** Names the evidence on the bench. */
  readonly key: EvidenceKey;
}> = (props) => {
  const { shown, readings } = useGround();
  const text = () => formatReading(props.reading);
  const isShown = () => shown.evidence()?.key === props.key;
  return (
    <button
      type="button"
      class="reading"
      classList={{ unknown: props.reading.value === null }}
      aria-label={`${props.name}: ${readingAloud(props.reading)}`}
      aria-pressed={props.evidence ? isShown() : undefined}
      title={props.reading.because}
      disabled={!props.evidence}
      onClick={() => props.evidence && shown.toggle(props.key, props.evidence, readings.isMeasuring())}
    >
      <span class="value">{text().value}</span>{" "}
      <Show when={text().bounds}>
        <span class="bounds">{text().bounds}</span>
      </Show>
    </button>
  );
};
