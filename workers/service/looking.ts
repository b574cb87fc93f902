// What is drawn and pointed at: windows, values and snaps of a take.

import { transfer } from "comlink";
import { nearest } from "../drawing/snap.ts";
import { valueAt } from "../drawing/values-at.ts";
import type { CaptureService, ChannelWindow } from "../protocol.ts";
import type { Recordings } from "./recordings.ts";

export function createLooking(recordings: Recordings): Pick<CaptureService, "window" | "valuesAt" | "snap"> {
  return {
    async window({ take, channelIds, span, width }) {
      const taken = recordings.find(take);
      const known = channelIds.filter((id) => taken?.has(id));
      const windows = known.map(
        (channelId): ChannelWindow => ({ channelId, ...taken!.window(channelId, span, width) }),
      );
      const buffers = windows.flatMap(({ times, values }) => [times.buffer, values.buffer]);
      return transfer(windows, buffers);
    },

    async valuesAt(take, channelIds, time) {
      const taken = recordings.find(take);
      const known = channelIds.filter((id) => taken?.has(id));
      return known.map((channelId) => valueAt(channelId, taken!.over(channelId, { from: time, to: time }), time));
    },

    async snap({ take, channelIds, ...wish }) {
      const taken = recordings.find(take);
      const span = { from: wish.near - wish.within, to: wish.near + wish.within };
      const known = channelIds.filter((id) => taken?.has(id));
      return nearest(
        wish,
        known.map((id) => [id, taken!.over(id, span)] as const),
      );
    },
  };
}
