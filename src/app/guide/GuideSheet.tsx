// The recording guide: cautions first, then what to record; what the job holds already is ticked off.

import { type Component, For, onMount, Show } from "solid-js";
import { recordingGuide } from "../../exhaust/findings/guide.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { useRecorded } from "./recorded.ts";

export const GuideSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const recorded = useRecorded();
  const guide = () => recordingGuide(recorded.all());
  onMount(() => void recorded.complete());
  return (
    <Dialog title="Recording guide" onClose={props.onClose}>
      <Show when={recorded.all().length > 0 && guide().next}>{(next) => <p class="statement">{next()}</p>}</Show>
      <Show when={recorded.all().length > 0 && !guide().next}>
        <p class="statement">This job holds every recording the guide asks for.</p>
      </Show>
      <section class="caution" aria-label="Cautions">
        <ul class="remarks">
          <For each={guide().cautions}>{(caution) => <li>{caution}</li>}</For>
        </ul>
      </section>
      <ol class="guide-steps">
        <For each={guide().steps}>
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
    </Dialog>
  );
};
