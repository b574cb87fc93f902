// The recording guide: cautions first, then what to record; what the job holds already is ticked off. Prints on one page.

import { type Component, For, onMount, Show } from "solid-js";
import { Portal } from "solid-js/web";
import { wantedOf } from "../../exhaust/conditions/visited.ts";
import { driveThere, visitedInWords } from "../../exhaust/conditions/visited-words.ts";
import { type RecordingGuide, recordingGuide } from "../../exhaust/findings/guide.ts";
import { evidenceOf } from "../../job/edits/paper-edits.ts";
import { frameConditionsOf } from "../../job/freeze-frame/conditions.ts";
import { useGround } from "../core/ground.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { useRecorded } from "./recorded.ts";
import "./guide.css";

export const GuideSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const recorded = useRecorded();
  const { desk, bench, readings } = useGround();
  const guide = () => recordingGuide(recorded.all());
  /** Where the code was stored, in words; null without a freeze frame, or where this recording has been there. */
  const drive = () => {
    const { frame } = evidenceOf(desk.job(), "before");
    const visited = readings.whole()?.visited;
    if (!frame || (visited && visited.together.length > 0)) return null;
    return driveThere(wantedOf(frameConditionsOf(frame, bench.state().bank)));
  };
  const been = () => {
    const visited = readings.whole()?.visited;
    return visited && visited.together.length > 0 ? visitedInWords(visited) : null;
  };
  onMount(() => void recorded.complete());
  return (
    <Dialog
      title="Recording guide"
      onClose={props.onClose}
      foot={
        <button type="button" class="main" onClick={() => window.print()}>
          Print on one page
        </button>
      }
    >
      <Show when={recorded.all().length > 0 && guide().next}>{(next) => <p class="statement">{next()}</p>}</Show>
      <Show when={recorded.all().length > 0 && !guide().next}>
        <p class="statement">This job holds every recording the guide asks for.</p>
      </Show>
      <GuideText guide={guide()} drive={drive()} been={been()} />
      <Portal ref={(place) => place.classList.add("print-only")}>
        <article class="guide-print">
          <h1>Recording guide: {desk.job().name}</h1>
          <Show when={recorded.all().length > 0 && guide().next}>{(next) => <p class="statement">{next()}</p>}</Show>
          <GuideText guide={guide()} drive={drive()} been={been()} />
        </article>
      </Portal>
    </Dialog>
  );
};

interface TextProps {
  readonly guide: RecordingGuide;
  readonly drive: string | null;
  readonly been: string | null;
}

const GuideText: Component<TextProps> = (props) => (
  <>
    <section class="caution" aria-label="Cautions">
      <ul class="remarks">
        <For each={props.guide.cautions}>{(caution) => <li>{caution}</li>}</For>
      </ul>
    </section>
    <Show when={props.drive}>{(line) => <p class="statement">{line()}</p>}</Show>
    <Show when={props.been}>{(line) => <p>{line()}</p>}</Show>
    <Show when={props.guide.failedLast}>{(line) => <p>What stood against the last recording: {line()}</p>}</Show>
    <section aria-label="How to connect">
      <h3>How to connect</h3>
      <ul class="remarks">
        <For each={props.guide.connections}>{(line) => <li>{line}</li>}</For>
      </ul>
    </section>
    <ol class="guide-steps">
      <For each={props.guide.steps}>
        {(step) => (
          <li classList={{ done: step.done }}>
            <h3>
              {step.title}
              <span class={`now ${step.done ? "points-away" : "soft"}`}>{step.done ? "recorded" : step.missing}</span>
            </h3>
            <ul class="remarks">
              <For each={step.what}>{(line) => <li>{line}</li>}</For>
            </ul>
            <p class="soft">
              {step.channels.join(", ")}; {step.rate}
            </p>
            <For each={step.cautions}>{(caution) => <p class="caution">{caution}</p>}</For>
          </li>
        )}
      </For>
    </ol>
  </>
);
