// What has been read so far, drawn while the reading goes on: to look at, not to measure.

import { type Component, createMemo } from "solid-js";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import { linesOf } from "../../drawing/layer.ts";
import { defaultBench } from "../../job/edits/bench.ts";
import { LaneStack } from "../../plot/lanes/LaneStack.tsx";
import type { PlotMarks } from "../../plot/stage/types.ts";
import { useGround } from "../core/ground.ts";
import { createTraces } from "../core/traces.ts";
import { laneLooks } from "../lanes/lane-looks.ts";

const noMarks: PlotMarks = { evidence: [], evidenceCount: 0, evidenceLevels: [], evidenceSpan: null, stretches: [] };

export const EarlyPicture: Component<{ readonly partial: CaptureSummary }> = (props) => {
  const { service, desk } = useGround();
  const bench = createMemo(() => defaultBench(props.partial.channels));
  const lanes = createMemo(() => laneLooks(bench(), { summary: props.partial, companions: [] }, desk.limits()));
  const ids = createMemo(() => lanes().flatMap((lane) => linesOf(lane).map(({ channelId }) => channelId)));
  const whole = () => props.partial.span;
  const traces = createTraces(
    (request) => service.window(request),
    () => props.partial,
    ids,
    whole,
  );
  return (
    <section class="early-picture" aria-label="Read so far">
      <LaneStack
        lanes={lanes()}
        windows={traces.windows()}
        view={whole()}
        whole={whole()}
        onView={() => {}}
        onWidth={traces.setWidth}
        tool="pan"
        dimensions={[]}
        selectedDimension={null}
        onDimension={() => {}}
        readouts={[]}
        onCursor={() => {}}
        marks={noMarks}
        span={null}
      />
    </section>
  );
};
