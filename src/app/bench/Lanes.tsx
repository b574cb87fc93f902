// The lanes over the overview: the plot, fed from the workbench, and its gestures, given back to it.

import { type Component, createMemo, Show } from "solid-js";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import { setScale } from "../../job/edits/lanes.ts";
import { LaneStack } from "../../plot/lanes/LaneStack.tsx";
import { Overview } from "../../plot/overview/Overview.tsx";
import type { PlotMarks, Tool } from "../../plot/stage/types.ts";
import { useGround } from "../core/ground.ts";
import { useDimensions } from "../dimensions/dimensions.ts";
import { PairBar } from "../dimensions/PairBar.tsx";
import { overviewLooks } from "../lanes/lane-looks.ts";
import { useLayers } from "../lanes/layers.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import { usePlaces } from "../places/places.ts";
import { InstantBar } from "../reading-out/InstantBar.tsx";
import { useInstants } from "../reading-out/instants.ts";
import { useLoupe } from "../reading-out/loupe.ts";
import { SpanBar } from "../spans/SpanBar.tsx";
import { StretchNote } from "../stretches/StretchNote.tsx";
import { useStretches } from "../stretches/stretches.ts";
import { stretchWords } from "../words.ts";
import { ToolHint } from "./Toolbar.tsx";

export const Lanes: Component<{ readonly summary: CaptureSummary }> = (props) => {
  const { bench, overview, view, span, setSpan, shown, companions, readings } = useGround();
  const dimensions = useDimensions();
  const liftOffs = useLiftOffs();
  const stretches = useStretches();
  const layers = useLayers();
  const instants = useInstants();
  const places = usePlaces();
  const loupe = useLoupe();
  const whole = () => companions.whole() ?? props.summary.span;
  /** Others are not part of the recording: nothing is held or pinned there. */
  const isOwn = (laneId: string) => bench.state().lanes.some(({ id }) => id === laneId);
  const marks = createMemo((): PlotMarks => {
    const evidence = shown.evidence()?.evidence;
    return {
      evidence: evidence?.marks ?? [],
      evidenceCount: evidence?.count ?? 0,
      evidenceLevels: evidence?.levels ?? [],
      evidenceSpan: evidence?.span ?? null,
      stretches: stretches.list(),
    };
  });
  const looks = createMemo(() => {
    const delay = liftOffs.dimension();
    return delay ? [...dimensions.looks(), delay] : dimensions.looks();
  });
  const tool = (): Tool => (liftOffs.placing() ? "spot" : dimensions.tool());
  const overviewTraces = () => overviewLooks(bench.state(), props.summary, [...overview.windows().keys()]);
  return (
    <>
      <section class="lanes" aria-label="Lanes">
        <ToolHint />
        <div class="lanes-room">
          <LaneStack
            lanes={layers.lanes()}
            windows={layers.windows()}
            view={view.view()}
            whole={whole()}
            onView={view.show}
            onWidth={(pixels) => {
              layers.setWidth(pixels);
              dimensions.setPixels(pixels / devicePixelRatio);
              loupe.setPixels(pixels / devicePixelRatio);
            }}
            onScales={dimensions.setScales}
            onHold={(laneId, range) =>
              isOwn(laneId) && bench.edit((state) => setScale(state, laneId, range), `scale-${laneId}`)
            }
            tool={tool()}
            dimensions={looks()}
            selectedDimension={dimensions.selected()}
            onDimension={(event) =>
              (event.kind !== "place" || isOwn(event.dimension.laneId)) && dimensions.handle(event)
            }
            readouts={layers.readouts()}
            onCursor={instants.point}
            instant={instants.kept()}
            onHoldInstant={instants.hold}
            onFinger={loupe.setLane}
            onAim={dimensions.aim}
            lit={dimensions.lit()}
            loupe={loupe.look()}
            marks={marks()}
            places={places.list()}
            span={span()}
            onSpan={(chosen) => {
              setSpan(chosen);
              dimensions.setTool("pan");
            }}
            onBox={({ laneId, span, range }) => {
              view.show(span);
              if (range && isOwn(laneId)) bench.edit((state) => setScale(state, laneId, range));
              dimensions.setTool("pan");
            }}
            onSpot={(_, spot) => liftOffs.placeAt(spot.time)}
          />
        </div>
      </section>
      <div class="below">
        <PairBar />
        <InstantBar lanes={layers.lanes()} readouts={layers.readouts()} />
        <SpanBar />
        <StretchNote />
      </div>
      <section class="over" aria-label="Overview">
        <Show when={whole().to > whole().from}>
          <Overview
            whole={whole()}
            windows={overview.windows()}
            traces={overviewTraces()}
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
        </Show>
      </section>
    </>
  );
};
