// The answer in one sentence: the catalyst finding; until there is one, what the lift-offs say.

import { type Component, createMemo, Show } from "solid-js";
import type { Finding, LiftOff, LiftOffSummary } from "../../exhaust/terms/analysis.ts";
import { formatReading, readingInWords } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import type { Early } from "../core/whole.ts";
import { earlyWords, verdictText } from "../words.ts";
import { FindingGrounds } from "./Findings.tsx";

export const Answer: Component = () => {
  const { readings } = useGround();
  const whole = readings.whole;
  const told = () => whole() ?? readings.early()?.said ?? null;
  const finding = createMemo(() => told()?.findings.find((f) => f.id === "catalyst") ?? null);
  const isFirst = () => whole() === null;
  return (
    <section aria-label="Answer" aria-live="polite">
      <Show
        when={finding()}
        fallback={
          <Show
            when={readings.wholeProblem()}
            fallback={<p class="statement">{liftOffSentence(whole()?.liftOffs ?? null, whole()?.liftOff ?? null)}</p>}
          >
            {(problem) => (
              <p class="statement">
                {problem().what} {problem().remedy}
              </p>
            )}
          </Show>
        }
      >
        {(catalyst) => (
          <Show
            when={!isFirst()}
            fallback={<p class={`verdict early ${catalyst().verdict}`}>{verdictText(catalyst())}</p>}
          >
            <CatalystFinding finding={catalyst()} />
          </Show>
        )}
      </Show>
      <Show when={readings.early()}>{(early) => <EarlyNote early={early()} />}</Show>
      <Show when={readings.wholeShare() !== null}>
        <progress aria-label="Reading the whole recording" max={1} value={readings.wholeShare() ?? 0} />
      </Show>
    </section>
  );
};

/** What the verdict above rests on as long as it is not the answer, and what the answer made of it. */
const EarlyNote: Component<{ readonly early: Early }> = (props) => {
  const words = () => earlyWords[props.early.kind];
  const said = () => props.early.said.findings.find(({ id }) => id === "catalyst");
  const isOther = () => props.early.proved === "other";
  return (
    <p class="early-note" classList={{ soft: !isOther(), changed: isOther() }}>
      {words()[props.early.proved ?? "open"]}
      <Show when={isOther() && said()}>{(one) => ` Before, it said: “${verdictText(one())}”.`}</Show>
    </p>
  );
};

const CatalystFinding: Component<{ readonly finding: Finding }> = (props) => (
  <>
    <p class={`verdict ${props.finding.verdict}`}>{verdictText(props.finding)}</p>
    <p class="statement">{props.finding.statement}</p>
    <details>
      <summary>Why</summary>
      <FindingGrounds finding={props.finding} />
    </details>
  </>
);

/** What the lift-offs say, in plain words; the numbers are those of the readings below. */
function liftOffSentence(all: readonly LiftOff[] | null, summary: LiftOffSummary | null): string {
  if (all === null) return "Reading the whole recording …";
  const counted = all.filter((one) => one.setAside === null);
  const [first] = all;
  if (!first) return "No lift-off in this recording: the delay of the rear sensor cannot be told from it.";
  if (counted.length === 0) return `No lift-off here counts: ${first.rejected}.`;
  const times = counted.length === 1 ? "once" : `${counted.length} times`;
  const delay = summary?.delay;
  if (!delay || delay.value === null)
    return `The throttle closed ${times}, but the delay of the rear sensor cannot be told.`;
  if (delay.grade === "at-least")
    return `The throttle closed ${times}. The rear sensor had not seen air ${formatReading(delay).value.replace("at least ", "")} after the front.`;
  return `The throttle closed ${times}. The rear sensor saw air ${readingInWords(delay)} after the front.`;
}
