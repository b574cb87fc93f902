// The worker's answers for the channels of a bench, whichever recording holds them, all told on the bench's time. Nothing
// is resampled: a companion's samples are asked for earlier by its shift, and told later by it.

import type { CaptureService, CaptureSummary, Filters, Snap } from "../../../workers/protocol.ts";
import { companionChannel, companionOf } from "../../job/edits/companions.ts";

export type AxisService = Pick<CaptureService, "window" | "valuesAt" | "snap">;

/** A companion as far as its time goes. */
export interface OnAxis {
  readonly captureId: string;
  /** Null while it is not at hand. */
  readonly summary: Pick<CaptureSummary, "take"> | null;
  /** s; time on the bench = time in the companion + by. */
  readonly by: number;
}

export function onOneAxis(service: AxisService, companions: () => readonly OnAxis[]): AxisService {
  /** The companions that hold some of the channels, with those channels as their own recording names them. */
  const holders = (ids: readonly string[]) =>
    companions().flatMap(({ captureId, summary, by }) => {
      const held = idsOf(captureId, ids);
      return summary && held.length > 0 ? [{ captureId, take: summary.take, by, ids: held }] : [];
    });
  return {
    async window({ filters, ...request }) {
      const own = service.window({ ...request, ...seen(filters), channelIds: ownIds(request.channelIds) });
      const theirs = holders(request.channelIds).map(async ({ captureId, take, by, ids }) => {
        const span = { from: request.span.from - by, to: request.span.to - by };
        const windows = await service.window({ ...request, take, channelIds: ids, span });
        return windows.map(({ channelId, times, ...rest }) => ({
          ...rest,
          channelId: companionChannel(captureId, channelId),
          times: times.map((time) => time + by),
        }));
      });
      return (await Promise.all([own, ...theirs])).flat();
    },

    async valuesAt(take, channelIds, time, filters) {
      const own = service.valuesAt(take, ownIds(channelIds), time, filters);
      const theirs = holders(channelIds).map(async (one) => {
        const values = await service.valuesAt(one.take, one.ids, time - one.by);
        return values.map((value) => ({ ...value, channelId: companionChannel(one.captureId, value.channelId) }));
      });
      return (await Promise.all([own, ...theirs])).flat();
    },

    async snap({ filters, ...request }) {
      const own = service.snap({ ...request, ...seen(filters), channelIds: ownIds(request.channelIds) });
      const theirs = holders(request.channelIds).map(async ({ captureId, take, by, ids }) => {
        const found = await service.snap({ ...request, take, channelIds: ids, near: request.near - by });
        return found && later(found, companionChannel(captureId, found.channelId), by);
      });
      const found = (await Promise.all([own, ...theirs])).filter((one) => one !== null);
      const distance = ({ time }: Snap) => Math.abs(time - request.near);
      return found.sort((a, b) => distance(a) - distance(b))[0] ?? null;
    },
  };
}

/** Filters are those of the bench's own channels. */
const seen = (filters: Filters | undefined) => (filters ? { filters } : {});

const ownIds = (ids: readonly string[]): readonly string[] => ids.filter((id) => companionOf(id) === null);

const idsOf = (captureId: string, ids: readonly string[]): readonly string[] =>
  ids.flatMap((id) => {
    const owner = companionOf(id);
    return owner?.captureId === captureId ? [owner.channelId] : [];
  });

const later = ({ time, low, high, ...snap }: Snap, channelId: string, by: number): Snap => ({
  ...snap,
  channelId,
  time: time + by,
  low: low + by,
  high: high + by,
});
