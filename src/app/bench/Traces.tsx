// The lanes' plot, fed from the workbench, and its gestures, given back to it.

import { type Component, createMemo } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { setScale } from "../../job/edits/lanes.ts";
import { LaneStack } from "../../plot/lanes/LaneStack.tsx";
import type { LaneStackProps, PlotMarks, Tool } from "../../plot/stage/types.ts";
import { useComparing } from "../comparing/comparing.ts";
import { useGround } from "../core/ground.ts";
import { useDimensions } from "../dimensions/dimensions.ts";
import { useLayers } from "../lanes/layers.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import { usePlaces } from "../places/places.ts";
import { useInstants } from "../reading-out/instants.ts";
import { useLoupe } from "../reading-out/loupe.ts";
import { useStretches } from "../stretches/stretches.ts";

export const Traces: Component<{ readonly whole: Span }> = (props) => {
  const { view, span, shown } = useGround();
  const dimensions = useDimensions();
  const liftOffs = useLiftOffs();
  const stretches = useStretches();
  const layers = useLayers();
  const instants = useInstants();
  const places = usePlaces();
  const loupe = useLoupe();
  const hands = handsOnLanes();
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
  return (
    <LaneStack
      {...hands}
      lanes={layers.lanes()}
      windows={layers.windows()}
      view={view.view()}
      whole={props.whole}
      tool={tool()}
      dimensions={looks()}
      selectedDimension={dimensions.selected()}
      readouts={layers.readouts()}
      instant={instants.kept()}
      lit={dimensions.lit()}
      loupe={loupe.look()}
      marks={marks()}
      places={places.list()}
      span={span()}
    />
  );
};

type Hands = Extract<keyof LaneStackProps, `on${string}`>;

/** What the workbench does when a hand does something on the traces. */
function handsOnLanes(): Pick<LaneStackProps, Hands> {
  const { bench, view, setSpan } = useGround();
  const dimensions = useDimensions();
  const instants = useInstants();
  const layers = useLayers();
  const loupe = useLoupe();
  const comparing = useComparing();
  const liftOffs = useLiftOffs();
  /** Others are not part of the recording: nothing is held or pinned there. */
  const isOwn = (laneId: string) => bench.state().lanes.some(({ id }) => id === laneId);
  return {
    onView: view.show,
    onWidth(pixels) {
      layers.setWidth(pixels);
      dimensions.setPixels(pixels / devicePixelRatio);
      loupe.setPixels(pixels / devicePixelRatio);
    },
    onScales: dimensions.setScales,
    onHold: (laneId, range) =>
      isOwn(laneId) && bench.edit((state) => setScale(state, laneId, range), `scale-${laneId}`),
    onDimension: (event) => (event.kind !== "place" || isOwn(event.dimension.laneId)) && dimensions.handle(event),
    onCursor: instants.point,
    onHoldInstant: instants.hold,
    onFinger: loupe.setLane,
    onAim: dimensions.aim,
    onSpan(chosen) {
      setSpan(chosen);
      dimensions.setTool("pan");
    },
    onBox({ laneId, span, range }) {
      view.show(span);
      if (range && isOwn(laneId)) bench.edit((state) => setScale(state, laneId, range));
      dimensions.setTool("pan");
    },
    onSlide: comparing.slide,
    onSpot: (_, spot) => liftOffs.placeAt(spot.time),
  };
}
