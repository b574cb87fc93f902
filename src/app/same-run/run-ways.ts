// Which channels of two recordings of one run hold the same quantity, and the ways of lining the two up that follow.

import type { CaptureService, CaptureSummary, ChannelSummary, SameRunRequest } from "../../../workers/protocol.ts";
import type { Role } from "../../capture/model/capture.ts";
import type { Way } from "../lining-up/ways.ts";

/** What tells a shift best comes first: what moves fast and is asked for often. */
const order: readonly Role[] = [
  "front-o2",
  "throttle",
  "engine-speed",
  "air-flow",
  "manifold-pressure",
  "road-speed",
  "rear-o2",
];
const plural: Partial<Record<Role, string>> = {
  "front-o2": "the fronts",
  "rear-o2": "the rears",
  throttle: "the throttles",
  "engine-speed": "the engine speeds",
  "air-flow": "the air flows",
  "manifold-pressure": "the manifold pressures",
  "road-speed": "the road speeds",
};

export type RunPairs = SameRunRequest["pairs"];

/** By role and bank; channels without a role by name and unit, after the others. */
function sharedChannels(mine: readonly ChannelSummary[], theirs: readonly ChannelSummary[]): RunPairs {
  const known = order.flatMap((role) =>
    mine.flatMap((one) => {
      const other = one.role === role && theirs.find((c) => c.role === role && c.bank === one.bank);
      return other ? [{ mine: one.id, other: other.id, name: plural[role]! }] : [];
    }),
  );
  const unknown = mine.flatMap((one) => {
    const isLike = (c: ChannelSummary) => c.role === "other" && c.name === one.name && c.unit === one.unit;
    const other = one.role === "other" && theirs.find(isLike);
    return other ? [{ mine: one.id, other: other.id, name: `both “${one.name}”` }] : [];
  });
  return [...known, ...unknown].slice(0, mostPairs);
}

/** More would add seconds and tell nothing new. */
const mostPairs = 7;

export interface RunSides {
  readonly mine: CaptureSummary;
  readonly theirs: CaptureSummary;
}

/** One way for each shared channel that is to tell the shift; all of them together find where the two lie. */
export function runWays(service: Pick<CaptureService, "lineUpRun">, { mine, theirs }: RunSides): readonly Way[] {
  const pairs = sharedChannels(mine.channels, theirs.channels);
  return pairs.map((pair) => ({
    id: `run ${pair.mine} ${pair.other}`,
    label: `Where ${pair.name} run most alike, whole run`,
    find: () =>
      service.lineUpRun({
        take: mine.take,
        other: theirs.take,
        pairs: [pair, ...pairs.filter((one) => one !== pair)],
      }),
  }));
}
