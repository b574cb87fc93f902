// A reading with its bounds; touching it shows the evidence behind it, and in a line below why it tells no more. Every reading
// is a door.

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
  /** Whether the reason why it tells no more is shown, and who shows it. */
  readonly isTold: boolean;
  readonly onTell: (isTold: boolean) => void;
}> = (props) => {
  const { shown, readings } = useGround();
  const text = () => formatReading(props.reading);
  const isShown = () => shown.evidence()?.key === props.key;
  const touch = () => {
    if (props.reading.because) props.onTell(!props.isTold);
    if (props.evidence) shown.toggle(props.key, props.evidence, readings.isMeasuring());
  };
  return (
    <button
      type="button"
      class="reading"
      classList={{ unknown: props.reading.value === null }}
      aria-label={`${props.name}: ${readingAloud(props.reading)}`}
      aria-pressed={props.evidence ? isShown() : undefined}
      aria-expanded={props.reading.because ? props.isTold : undefined}
      disabled={!props.evidence && !props.reading.because}
      onClick={touch}
    >
      <span class="value">{text().value}</span>{" "}
      <Show when={text().bounds}>
        <span class="bounds">{text().bounds}</span>
      </Show>
    </button>
  );
};
