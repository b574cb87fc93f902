// The lanes over the overview, and what is told between them of what the hand does.

import { type Component, Show } from "solid-js";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { lanesLeft } from "../../job/edits/lanes.ts";
import { Overview } from "../../plot/overview/Overview.tsx";
import { ReferenceBar } from "../comparing/OnThePlot.tsx";
import { useGround } from "../core/ground.ts";
import { PairBar } from "../dimensions/PairBar.tsx";
import { overviewLooks } from "../lanes/lane-looks.ts";
import { useLayers } from "../lanes/layers.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import { usePlaces } from "../places/places.ts";
import { InstantBar } from "../reading-out/InstantBar.tsx";
import { SpanBar } from "../spans/SpanBar.tsx";
import { StretchNote } from "../stretches/StretchNote.tsx";
import { useStretches } from "../stretches/stretches.ts";
import { stretchWords } from "../words.ts";
import { ToolHint } from "./Toolbar.tsx";
import { Traces } from "./Traces.tsx";

export const Lanes: Component<{ readonly summary: CaptureSummary }> = (props) => {
  const { bench, companions } = useGround();
  const layers = useLayers();
  const whole = () => companions.whole() ?? props.summary.span;
  return (
    <>
      <section class="lanes" aria-label="Lanes">
        <ToolHint />
        <Show when={lanesLeft(bench.state())}>
          {(left) => (
            <p class="lanes-left" role="status">
              {left()} more lanes find no room. Hide some under “Channels”, or put several channels into one lane.
            </p>
          )}
        </Show>
        <div class="lanes-room">
          <Traces whole={whole()} />
        </div>
      </section>
      <div class="below">
        <ReferenceBar />
        <PairBar />
        <InstantBar lanes={layers.lanes()} readouts={layers.readouts()} />
        <SpanBar />
        <StretchNote />
      </div>
      <section class="over" aria-label="Overview">
        <Show when={whole().to > whole().from}>
          <WholeStrip summary={props.summary} whole={whole()} />
        </Show>
      </section>
    </>
  );
};

/** The overview, fed from the workbench. */
const WholeStrip: Component<{ readonly summary: CaptureSummary; readonly whole: Span }> = (props) => {
  const { bench, overview, view, readings } = useGround();
  const stretches = useStretches();
  const places = usePlaces();
  const liftOffs = useLiftOffs();
  return (
    <Overview
      whole={props.whole}
      windows={overview.windows()}
      traces={overviewLooks(bench.state(), props.summary, [...overview.windows().keys()])}
      view={view.view()}
      onView={view.show}
      onWidth={overview.setWidth}
      stretches={stretches.list()}
      chosenStretch={stretches.chosen()}
      onStretch={stretches.go}
      stretchName={(kind) => stretchWords[kind]}
      places={places.list()}
      events={liftOffs.list().map((one) => one.at)}
      marked={readings.whole()?.visited?.together ?? []}
    />
  );
};
