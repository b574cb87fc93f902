// The comparison in the panel: whether it is fair before anything else, then what differs, then how it is drawn.

import { type Component, createMemo, For, Match, Show, Switch } from "solid-js";
import type { Comparison, Fairness, MatchingPart } from "../../exhaust/comparing/comparison.ts";
import type { Problem } from "../../problem.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { formatReading, formatValue } from "../../signal/written/reading-text.ts";
import { useSheets } from "../core/sheets.ts";
import { LiningUp } from "../lining-up/LiningUp.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { BeforeAfter } from "./BeforeAfter.tsx";
import { useComparing } from "./comparing.ts";
import { Differences } from "./Differences.tsx";
import { PictureChoices } from "./PictureChoices.tsx";

export const CompareTab: Component = () => {
  const sheets = useSheets();
  const comparing = useComparing();
  return (
    <Switch
      fallback={
        <section aria-label="Compare">
          <p class="statement">Nothing lies under this recording yet.</p>
          <p class="why">A known-good trace, or another recording of this job, shows what is different.</p>
          <button type="button" class="main" onClick={() => sheets.open("shelf")}>
            Choose what to compare with
          </button>
        </section>
      }
    >
      <Match when={comparing.fetching()}>
        {(name) => (
          <section aria-label="Compare" aria-live="polite">
            <p class="statement">Fetching {name()} …</p>
          </section>
        )}
      </Match>
      <Match when={comparing.reference()}>
        {(reference) => (
          <>
            <section aria-label="Compare" aria-live="polite">
              <div class="section-head">
                <h2>Against {reference().name}</h2>
                <button type="button" class="plain" onClick={comparing.end}>
                  Take away
                </button>
              </div>
              <Show when={comparing.comparison()} fallback={<NotYet problem={comparing.problem()} />}>
                {(comparison) => <Verdict comparison={comparison()} />}
              </Show>
            </section>
            <BeforeAfter />
            <Show when={comparing.comparison()}>{(comparison) => <Differences comparison={comparison()} />}</Show>
            <section aria-label="Lining up">
              <h2>Lined up</h2>
              <LiningUp
                whose="Reference"
                shift={comparing.shift()}
                ways={comparing.ways()}
                onWay={(way) => void comparing.lineUp(way)}
                onShift={comparing.shiftTo}
              />
            </section>
            <PictureChoices />
            <Show when={comparing.comparison()}>{(comparison) => <Conditions comparison={comparison()} />}</Show>
          </>
        )}
      </Match>
    </Switch>
  );
};

const NotYet: Component<{ readonly problem: Problem | null }> = (props) => (
  <Show when={props.problem} fallback={<p class="statement">Measuring both …</p>}>
    {(problem) => <ProblemNote problem={problem()} />}
  </Show>
);

const Verdict: Component<{ readonly comparison: Comparison }> = (props) => {
  const comparing = useComparing();
  const unlike = createMemo(() => props.comparison.fair.filter(({ ok }) => !ok));
  const says = () => {
    if (unlike().length === 0) return "Compared like with like";
    return props.comparison.differences.some(({ fair }) => fair) ? "Fair only in part" : "Not a fair comparison";
  };
  return (
    <>
      <p class={`verdict ${unlike().length > 0 ? "cannot-say" : ""}`}>{says()}</p>
      <For each={unlike()}>{(one) => <UnlikeLine fairness={one} />}</For>
      <p class="statement">{props.comparison.says}</p>
      <For each={props.comparison.matching}>
        {(part) => (
          <button type="button" class="wraps" onClick={() => void comparing.take(part)}>
            Compare only {part.what}: {part.suspect.length} here, {part.reference.length} there
          </button>
        )}
      </For>
      <For each={comparing.parts()}>
        {({ of }) => (
          <>
            <p class="why">Only matching {several(of)} are compared.</p>
            <button type="button" onClick={() => comparing.takeAll(of)}>
              Compare all {several(of)}
            </button>
          </>
        )}
      </For>
    </>
  );
};

const UnlikeLine: Component<{ readonly fairness: Fairness }> = (props) => (
  <p class="unlike">
    <strong>{sentence(props.fairness.what)}:</strong> {plain(props.fairness.suspect)} here,{" "}
    {plain(props.fairness.reference)} in the reference.
  </p>
);

/** Every condition, and the flow and speed at each lift-off beside its delay. */
const Conditions: Component<{ readonly comparison: Comparison }> = (props) => (
  <section aria-label="Conditions">
    <details open={props.comparison.fair.some(({ ok }) => !ok)}>
      <summary>Conditions{unlikeText(props.comparison.fair)}</summary>
      <table class="readings compared">
        <thead>
          <tr>
            <th />
            <th>suspect</th>
            <th>reference</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.comparison.fair}>
            {(one) => (
              <tr classList={{ unlike: !one.ok }} title={one.says}>
                <th>
                  {sentence(one.what)}
                  {one.ok ? "" : ", unlike"}
                </th>
                <td>{plain(one.suspect)}</td>
                <td>{plain(one.reference)}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <ul class="facts-list">
        <For each={props.comparison.notKnown}>{(text) => <li>{text}</li>}</For>
      </ul>
      <h3>Flow and speed at each lift-off</h3>
      <EventConditions events={props.comparison.events} />
    </details>
  </section>
);

const EventConditions: Component<{ readonly events: Comparison["events"] }> = (props) => (
  <table class="readings compared">
    <thead>
      <tr>
        <th />
        <th>delay</th>
        <th>air flow</th>
        <th>speed</th>
      </tr>
    </thead>
    <tbody>
      <For each={["suspect", "reference"] as const}>
        {(side) => (
          <For each={props.events[side]}>
            {(event, i) => (
              <tr>
                <th>
                  {sentence(side)} {i() + 1}
                </th>
                <td>{plain(event.delay)}</td>
                <td>{event.airFlow === null ? "–" : formatValue(event.airFlow, "g/s", 0.1)}</td>
                <td>{event.engineSpeed === null ? "–" : formatValue(event.engineSpeed, "1/min", 10)}</td>
              </tr>
            )}
          </For>
        )}
      </For>
    </tbody>
  </table>
);

function unlikeText(fair: readonly Fairness[]): string {
  const unlike = fair.filter(({ ok }) => !ok).length;
  return unlike === 0 ? ", all alike" : `, ${unlike} unlike`;
}

const several = (of: MatchingPart["of"]) => (of === "lift-off" ? "lift-offs" : `${of} stretches`);
const plain = (value: Reading | string): string => (typeof value === "string" ? value : formatReading(value).value);
const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
