// The lanes as saved, with the channels of the recording on the bench and of those that lie on its time axis.

import { createMemo } from "solid-js";
import { linesOf } from "../../drawing/layer.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import { formatTime, readingInWords } from "../../signal/written/reading-text.ts";
import type { CompanionView } from "../core/companions.ts";
import type { Ground } from "../core/ground.ts";
import { laneLooks } from "./lane-looks.ts";
import type { LayerKind } from "./layers.ts";
import { sampleRates } from "./sample-rates.ts";

export function createOwnLayer({ bench, desk, summary, companions, traces }: Ground): LayerKind {
  const lanes = createMemo(() => {
    const capture = summary();
    return capture ? laneLooks(bench.state(), { summary: capture, companions: companions.list() }, desk.limits()) : [];
  });
  const ids = createMemo(() => lanes().flatMap((lane) => linesOf(lane).map(({ channelId }) => channelId)));
  return {
    lay: lanes,
    windows: () => [...traces.windows().values()],
    async windowsOver({ span, width }) {
      const capture = summary();
      return capture ? companions.service.window({ take: capture.take, channelIds: ids(), span, width }) : [];
    },
    setWidth: traces.setWidth,
    statements: () => companionStatements(companions.list(), lanes()),
  };
}

/** Of each recording of the same run that is drawn: which, how it lies, and how it was sampled. */
function companionStatements(companions: readonly CompanionView[], lanes: readonly LaneLook[]): readonly string[] {
  const drawn = new Set(lanes.flatMap((lane) => linesOf(lane).map(({ channelId }) => channelId)));
  return companions.flatMap(({ record, channels, shift: { shift, says, ambiguousBy } }) => {
    const rates = sampleRates(channels.filter(({ id }) => drawn.has(id)));
    if (rates === "") return [];
    const by = shift.value === null ? "not lined up" : `shifted by ${readingInWords(shift)} (${says})`;
    const other = ambiguousBy === null ? "" : `; another ${formatTime(ambiguousBy, 0.01)} away fits nearly as well`;
    return [`Same run: ${record.fileName}, SHA-256 ${record.sha256.slice(0, 12)}…, ${rates}, ${by}${other}.`];
  });
}
