// What an end that is being dragged would be set on when it is let go: found while it moves, and lit on the lanes.

import { type Accessor, createMemo, createSignal } from "solid-js";
import type { ChannelSummary, Filters, Snap, SnapRequest } from "../../../workers/protocol.ts";
import { filtersOn } from "../../job/edits/filters.ts";
import type { Anchor } from "../../job/record/job.ts";
import type { Aim, LitSpot, Range, Spot } from "../../plot/stage/types.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";

export interface Snapping {
  /** Ends are set on what is lit when they are let go. */
  readonly isOn: Accessor<boolean>;
  setOn(isOn: boolean): void;
  aim(aim: Aim | null): void;
  readonly lit: Accessor<readonly LitSpot[]>;
  /** The end on what is lit near it; the end itself where nothing is. */
  settled(end: Spot): Anchor;
}

/** How near an end comes to be set on something, CSS pixels along time; along a scale, as a share of it. */
const reach = 14;
const levelReach = 0.06;

export interface LaneFacts {
  channelsOf(laneId: string): readonly ChannelSummary[];
  /** Scales in force, by lane. */
  readonly scales: Accessor<ReadonlyMap<string, Range>>;
  /** CSS pixels of the traces. */
  readonly pixels: Accessor<number>;
}

interface Found {
  readonly laneId: string;
  readonly near: Spot;
  readonly anchor: Anchor;
}

export function createSnapping(ground: Ground, { channelsOf, scales, pixels }: LaneFacts): Snapping {
  const { summary, view, desk, bench, companions } = ground;
  const [isOn, setOn] = createSignal(true);
  const [aimed, aim] = createSignal<Aim | null>(null);
  const within = () => (reach * (view.view().to - view.view().from)) / pixels();
  const ask = createMemo(() => {
    const [capture, at] = [summary(), aimed()];
    return capture && at && isOn() ? { take: capture.take, at, within: within() } : null;
  });
  const latest = createLatest(
    ask,
    async ({ take, at, within }) => {
      const channels = channelsOf(at.laneId);
      const filters = filtersOn(bench.state());
      const channelIds = channels.map(({ id }) => id);
      const wish = { take, channelIds, filters, within, level: desk.limits().switchLevel };
      const ways = waysOf(at, channels, within);
      const found = await Promise.all(
        at.ends.map(async (end): Promise<readonly Found[]> => {
          for (const to of ways) {
            const snap = await companions.service.snap({ ...wish, near: end.time, to });
            if (snap && isMeant(snap, end, at))
              return [{ laneId: at.laneId, near: end, anchor: anchorOf(snap, to, filters) }];
          }
          return [];
        }),
      );
      return found.flat();
    },
    { about: ({ take }) => take.captureId },
  );
  /** An extreme in reach is one only where the trace turns there; for a level, where the end is near it. */
  const isMeant = (snap: Snap, end: Spot, at: Aim): boolean => {
    const [low, high] = scales().get(at.laneId) ?? [0, 1];
    if (at.kind === "level") return Math.abs(snap.value - end.level) < levelReach * (high - low);
    return Math.abs(snap.time - end.time) < 0.8 * within();
  };
  const found = () => (aimed() && isOn() ? (latest.value() ?? []) : []);
  return {
    isOn,
    setOn,
    aim,
    lit: () => found().map(({ laneId, anchor }) => ({ laneId, ...anchor, word: anchor.snap!.to })),
    settled(end) {
      const near = found().find(({ near }) => Math.abs(near.time - end.time) <= within());
      return near?.anchor ?? { time: end.time, level: end.level };
    },
  };
}

/** Crossings where the lane holds volts; samples where they can be told apart. */
function waysOf({ kind }: Aim, channels: readonly ChannelSummary[], within: number): readonly SnapRequest["to"][] {
  if (kind === "level") return ["extreme"];
  const hasVolts = channels.some(({ unit }) => unit === "V");
  const fastest = Math.max(0, ...channels.map(({ rate }) => rate.value ?? 0));
  const isSparse = fastest * 2 * within < 6;
  return [...(hasVolts ? ["crossing" as const] : []), ...(isSparse ? ["sample" as const] : ["extreme" as const])];
}

/** A place that was found, as an end of a pair: with what it was seen through. */
export function anchorOf({ channelId, time, value, low, high }: Snap, to: SnapRequest["to"], filters: Filters): Anchor {
  const through = filters[channelId];
  return { time, level: value, snap: { channelId, to, low, high, ...(through ? { through } : {}) } };
}
