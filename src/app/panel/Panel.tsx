// The right-hand panel: answer, channels, job. One at a time, so that each can be read at arm's length.

import { type Component, createEffect, createSignal, For, lazy, Match, on, Switch } from "solid-js";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import { useComparing } from "../comparing/comparing.ts";
import { EachLiftOff } from "../multiples/EachLiftOff.tsx";
import { FaultBoundary } from "../parts/FaultBoundary.tsx";
import { AnswerTab } from "./AnswerTab.tsx";

/** These come when they are looked at: the page starts with the answer. */
const ChannelsTab = lazy(async () => ({ default: (await import("../channels/ChannelsTab.tsx")).ChannelsTab }));
const JobTab = lazy(async () => ({ default: (await import("../job/JobTab.tsx")).JobTab }));
const CompareTab = lazy(async () => ({ default: (await import("../comparing/CompareTab.tsx")).CompareTab }));

const tabs = ["Answer", "Compare", "Channels", "Job"] as const;
type Tab = (typeof tabs)[number];

export const Panel: Component<{ readonly summary: CaptureSummary | null }> = (props) => {
  const [tab, setTab] = createSignal<Tab>("Answer");
  const comparing = useComparing();
  // What was just chosen is read at once.
  createEffect(on(comparing.fetching, (name) => name && setTab("Compare"), { defer: true }));
  const step = (event: KeyboardEvent) => {
    const by = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
    if (by === 0) return;
    const next = tabs[(tabs.indexOf(tab()) + by + tabs.length) % tabs.length]!;
    setTab(next);
    document.getElementById(`tab-${next}`)?.focus();
  };
  return (
    <aside class="panel" aria-label="Panel">
      <div class="tabs" role="tablist" aria-label="Panel" onKeyDown={step}>
        <For each={tabs}>
          {(name) => (
            <button
              type="button"
              role="tab"
              id={`tab-${name}`}
              aria-selected={tab() === name}
              aria-controls="panel-body"
              tabindex={tab() === name ? 0 : -1}
              onClick={() => setTab(name)}
            >
              {name}
            </button>
          )}
        </For>
      </div>
      <div class="panel-body" id="panel-body" role="tabpanel" aria-labelledby={`tab-${tab()}`} tabindex={0}>
        <FaultBoundary name="this page of the panel">
          <Switch>
            <Match when={tab() === "Answer"}>
              <AnswerTab />
            </Match>
            <Match when={tab() === "Compare"}>
              <CompareTab />
              <EachLiftOff />
            </Match>
            <Match when={tab() === "Channels" && props.summary}>
              {(summary) => <ChannelsTab summary={summary()} />}
            </Match>
            <Match when={tab() === "Job"}>
              <JobTab />
            </Match>
          </Switch>
        </FaultBoundary>
      </div>
    </aside>
  );
};
