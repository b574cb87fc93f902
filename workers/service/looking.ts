// What is drawn and pointed at: windows, values and snaps of a take, as recorded or through a filter.

import { transfer } from "comlink";
import type { Span } from "../../src/exhaust/terms/analysis.ts";
import { throughFilter } from "../drawing/filtered.ts";
import { nearest, type Sought } from "../drawing/snap.ts";
import { valueAt } from "../drawing/values-at.ts";
import { windowOf } from "../drawing/window.ts";
import type { TakenCapture } from "../held/taken-capture.ts";
import type { CaptureService, ChannelWindow, Filters } from "../protocol.ts";
import type { Recordings } from "./recordings.ts";

export function createLooking(recordings: Recordings): Pick<CaptureService, "window" | "valuesAt" | "snap"> {
  return {
    async window({ take, channelIds, filters = {}, span, width }) {
      const taken = recordings.find(take);
      const known = channelIds.filter((id) => taken?.has(id));
      const windows = known.flatMap((channelId): ChannelWindow[] => {
        if (!filters[channelId]) return [{ channelId, ...taken!.window(channelId, span, width) }];
        const trace = throughFilter(taken!, channelId, filters[channelId], span);
        return trace ? [{ channelId, ...windowOf(trace, span, width) }] : [];
      });
      const buffers = windows.flatMap(({ times, values }) => [times.buffer, values.buffer]);
      return transfer(windows, buffers);
    },

    async valuesAt(take, channelIds, time, filters = {}) {
      const taken = recordings.find(take);
      const traces = taken ? seen(taken, channelIds, filters, { from: time, to: time }) : [];
      return traces.map(([channelId, trace]) => valueAt(channelId, trace, time));
    },

    async snap({ take, channelIds, filters = {}, ...wish }) {
      const taken = recordings.find(take);
      const span = { from: wish.near - wish.within, to: wish.near + wish.within };
      return taken ? nearest(wish, seen(taken, channelIds, filters, span)) : null;
    },
  };
}

function seen(taken: TakenCapture, channelIds: readonly string[], filters: Filters, span: Span): readonly Sought[] {
  return channelIds.flatMap((id): Sought[] => {
    if (!taken.has(id)) return [];
    const filter = filters[id];
    const trace = filter ? throughFilter(taken, id, filter, span) : taken.over(id, span);
    return trace ? [[id, trace]] : [];
  });
}
