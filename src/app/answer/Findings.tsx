// What else it could be: every finding but the catalyst's, with what speaks for and against it and what to do next.

import { type Component, For, Show } from "solid-js";
import type { Finding, FindingReason, Verdict } from "../../exhaust/terms/analysis.ts";
import { stretchSpan, withoutStop } from "../../exhaust/terms/words.ts";
import { useGround } from "../core/ground.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import { findingWords, shortVerdict, stretchWords } from "../words.ts";

const rank: Readonly<Record<Verdict, number>> = { "points-to": 0, "cannot-say": 1, "points-away": 2 };

export const Findings: Component = () => {
  const { readings } = useGround();
  const others = () =>
    (readings.whole()?.findings ?? [])
      .filter((one) => one.id !== "catalyst")
      .toSorted((a, b) => rank[a.verdict] - rank[b.verdict]);
  return (
    <Show when={others().length > 0}>
      <section aria-label="What else it could be">
        <h2>What else it could be</h2>
        <For each={others()}>
          {(finding) => (
            <details class="finding">
              <summary>
                {findingWords[finding.id]}
                <span class={`now ${finding.verdict}`}>{shortVerdict(finding)}</span>
              </summary>
              <p>{finding.statement}</p>
              <FindingGrounds finding={finding} />
            </details>
          )}
        </For>
      </section>
    </Show>
  );
};

/** For, against, depends on, next; every reason is a door to where it was read. */
export const FindingGrounds: Component<{ readonly finding: Finding }> = (props) => (
  <>
    <Reasons title="Speaks for it" reasons={props.finding.for} />
    <Reasons title="Speaks against it" reasons={props.finding.against} />
    <Lines title="Next" lines={props.finding.next} />
    <Lines title="Depends on" lines={props.finding.dependsOn} />
  </>
);

const Reasons: Component<{ readonly title: string; readonly reasons: readonly FindingReason[] }> = (props) => (
  <Show when={props.reasons.length > 0}>
    <h3>{props.title}</h3>
    <ul class="reasons">
      <For each={props.reasons}>
        {(reason) => (
          <li>
            <ReasonDoor reason={reason} />
          </li>
        )}
      </For>
    </ul>
  </Show>
);

const ReasonDoor: Component<{ readonly reason: FindingReason }> = (props) => {
  const { readings, shown } = useGround();
  const liftOffs = useLiftOffs();
  const stretch = () => {
    const { at } = props.reason;
    if (at?.kind !== "stretch") return undefined;
    return readings.whole()?.stretches.find(({ from, to }) => from === at.from && to === at.to);
  };
  const lift = () =>
    props.reason.at?.kind === "lift-offs" ? liftOffs.list().find((one) => one.setAside === null) : undefined;
  const go = () => {
    const [place, event] = [stretch(), lift()];
    if (place) shown.go(props.reason.reading, place);
    else if (event) liftOffs.select(event.id);
  };
  const words = () => {
    const place = stretch();
    const says = withoutStop(props.reason.says);
    return place ? `${says}, ${stretchWords[place.kind]} ${stretchSpan(place)}` : says;
  };
  return (
    <Show when={stretch() ?? lift()} fallback={<p class="reason">{words()}</p>}>
      <button type="button" onClick={go}>
        {words()}
      </button>
    </Show>
  );
};

const Lines: Component<{ readonly title: string; readonly lines: readonly string[] }> = (props) => (
  <Show when={props.lines.length > 0}>
    <h3>{props.title}</h3>
    <ul class="remarks">
      <For each={props.lines}>{(line) => <li>{line}</li>}</For>
    </ul>
  </Show>
);
