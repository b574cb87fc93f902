// The lines of all lift-offs about the front's fall: the recording's with the healthy band, then the reference's.

import type { CaptureService, CaptureSummary, ChannelWindow } from "../../../workers/protocol.ts";
import type { Bank } from "../../capture/model/capture.ts";
import { extentWithin, type Polyline } from "../../drawing/paths.ts";
import type { HealthyTrace } from "../../exhaust/store/healthy.ts";
import type { LiftOff, Span } from "../../exhaust/terms/analysis.ts";
import type { Reading } from "../../signal/numbers/reading.ts";
import { cutTo } from "../healthy/cut.ts";

/** About the front's fall, s. */
export const about: Span = { from: -1, to: 4 };
/** Of a small picture. */
const columns = 240;

export interface SmallBand {
  readonly times: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** Times from the front's fall on. */
export interface SmallEventLook {
  readonly id: string;
  readonly label: string;
  readonly whose: "suspect" | "reference";
  readonly front: Polyline | null;
  readonly rear: Polyline | null;
  readonly delay: Reading;
  /** Where the rear would have stayed behind a sound catalyst. */
  readonly band: SmallBand | null;
}

export interface Side {
  readonly whose: SmallEventLook["whose"];
  readonly summary: CaptureSummary;
  readonly bank: Bank;
  readonly events: readonly (Pick<LiftOff, "id" | "frontFall" | "delay"> & { readonly label: string })[];
}

/** Those whose front's fall is known, in order. */
export async function smallEvents(
  ask: CaptureService["window"],
  { whose, summary, bank, events }: Side,
  healthy: HealthyTrace | null,
): Promise<readonly SmallEventLook[]> {
  const idOf = (role: string) => summary.channels.find((c) => c.role === role && c.bank === bank)?.id;
  const [front, rear] = [idOf("front-o2"), idOf("rear-o2")];
  const channelIds = [front, rear].filter((id) => id !== undefined);
  const looks = events.map(async ({ id, label, frontFall, delay }): Promise<SmallEventLook[]> => {
    const at = frontFall.value;
    if (at === null) return [];
    const span = { from: at + about.from, to: at + about.to };
    const windows = await ask({ take: summary.take, channelIds, span, width: columns });
    const line = (channelId: string | undefined) =>
      relative(
        at,
        windows.find((one) => one.channelId === channelId),
      );
    const band = healthy && bandAt(at, cutTo(healthy, span, columns / 2));
    return [{ id, label, whose, delay, front: line(front), rear: line(rear), band }];
  });
  return (await Promise.all(looks)).flat();
}

/** Lowest and highest of all of them: the one scale. */
export function rangeOver(events: readonly SmallEventLook[]): readonly [low: number, high: number] {
  const lines = events.flatMap(({ front, rear, band }) => [
    ...[front, rear].filter((line) => line !== null),
    ...(band ? [band.low, band.high].map((values) => ({ times: band.times, values, dense: false })) : []),
  ]);
  const extents = lines.flatMap((line) => extentWithin(line, about.from, about.to) ?? []);
  return extents.length > 0 ? [Math.min(...extents), Math.max(...extents)] : [0, 1];
}

const relative = (at: number, window: ChannelWindow | undefined): Polyline | null =>
  window ? { ...window, times: window.times.map((time) => time - at) } : null;

const bandAt = (at: number, { times, low, high }: SmallBand): SmallBand => ({
  times: times.map((time) => time - at),
  low,
  high,
});
