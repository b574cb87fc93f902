// The bench as it first shows a recording: front over rear on top, what explains them below.

import type { Bank, Channel, Role } from "../../capture/model/capture.ts";
import type { BenchState, Lane } from "../record/job.ts";
import { isCompanionChannel } from "./companions.ts";

/** What the bench needs to know of a channel. */
export type ChannelFacts = Pick<Channel, "id" | "name" | "unit" | "role" | "bank"> & {
  /** Null: it never holds a value. */
  readonly range?: readonly [low: number, high: number] | null;
};

/** Below the oxygen sensors, in the order in which they explain a lift-off. */
const order: readonly Role[] = [
  "front-lambda",
  "throttle",
  "engine-speed",
  "air-flow",
  "road-speed",
  "short-trim",
  "long-trim",
  "coolant-temp",
  "catalyst-temp",
  "engine-load",
  "manifold-pressure",
  "fuel-status",
  "other",
];

/** More lanes than this and none can be read at arm's length; the others wait in the channel list. */
const lanesShown = 4;

const sensorShare = 4;

/**
 * @param channels in file order.
 * @returns every channel in exactly one lane; those that find no room, or never hold a value, are hidden.
 */
export function defaultBench(channels: readonly ChannelFacts[]): BenchState {
  const bank: Bank = channels.some((c) => isOxygen(c.role) && c.bank === 1) ? 1 : (bankOfFirst(channels) ?? 1);
  const sensorLanes = [bank, bank === 1 ? 2 : 1].flatMap((b) => sensorLane(channels, b as Bank));
  const others = order.flatMap((role) => channels.filter((c) => c.role === role));
  const room = sensorLanes.length > 0 ? lanesShown - sensorLanes.length : lanesShown;
  const holding = others.filter(({ range }) => range !== null);
  const shown = (sensorLanes.length + holding.length > 0 ? holding : others).slice(0, Math.max(room, 1));
  return {
    lanes: [...sensorLanes, ...others.map((c) => newLane([c.id]))],
    hidden: others.filter((c) => !shown.includes(c)).map((c) => c.id),
    channels: {},
    cursors: [],
    dimensions: [],
    liftOffEdits: [],
    bank,
  };
}

/** The bench for a recording read another way: what still fits stays, companions too; channels that are new find a lane. */
export function adaptBench(bench: BenchState, channels: readonly ChannelFacts[]): BenchState {
  const ids = new Set(channels.map((c) => c.id));
  const isThere = (id: string) => ids.has(id) || isCompanionChannel(id);
  const kept = bench.lanes
    .map((lane) => ({ ...lane, channelIds: lane.channelIds.filter(isThere) }))
    .filter((lane) => lane.channelIds.length > 0);
  const placed = new Set(kept.flatMap((lane) => lane.channelIds));
  const fresh = channels.filter((c) => !placed.has(c.id)).map((c) => newLane([c.id]));
  return { ...bench, lanes: [...kept, ...fresh], hidden: bench.hidden.filter(isThere) };
}

/** A lane named after its first channel; scaled to what the window holds. */
export function newLane(channelIds: readonly string[], share = 1): Lane {
  return { id: `lane-${channelIds[0]}`, channelIds, scale: "fit", share };
}

function isOxygen(role: Role): boolean {
  return role === "front-o2" || role === "rear-o2";
}

function sensorLane(channels: readonly ChannelFacts[], bank: Bank): Lane[] {
  const front = channels.filter((c) => c.role === "front-o2" && c.bank === bank);
  const rear = channels.filter((c) => c.role === "rear-o2" && c.bank === bank);
  const ids = [...front, ...rear].map((c) => c.id);
  return ids.length === 0 ? [] : [newLane(ids, sensorShare)];
}

function bankOfFirst(channels: readonly ChannelFacts[]): Bank | null {
  return channels.find((c) => isOxygen(c.role))?.bank ?? null;
}
