// Lanes of two sides: every channel stays in exactly one, wherever either side put it.

import type { Lane } from "../record/job.ts";
import { mergeOrder } from "./order.ts";
import { entries, fields, list, type Origin, whole } from "./three-way.ts";

type Lanes = readonly Lane[];

/** Order, scale and height of lanes, and the lane of each channel, are fields of their own; a lane left empty goes. */
export function mergeLanes({ base = [], mineWins }: Origin<Lanes>, mine: Lanes, theirs: Lanes): Lanes {
  const homes = entries<string>(whole)({ base: homesOf(base), mineWins }, homesOf(mine), homesOf(theirs));
  const looks = mergeLooks({ base: base.map(bare), mineWins }, everyLane(mine, theirs), everyLane(theirs, mine));
  const order = mergeOrder(idsOf(base), idsOf(mine), idsOf(theirs), { stays: new Set(Object.values(homes)), mineWins });
  return order.map((id) => {
    const stays = new Set(Object.keys(homes).filter((channel) => homes[channel] === id));
    const within = (lanes: Lanes) => lanes.find((lane) => lane.id === id)?.channelIds ?? [];
    const channelIds = mergeOrder(within(base), within(mine), within(theirs), { stays, mineWins });
    return { ...looks.find((look) => look.id === id)!, channelIds };
  });
}

const mergeLooks = list<Lane>(({ id }) => id, fields<Lane>({}));

const idsOf = (lanes: Lanes) => lanes.map(({ id }) => id);

const bare = (lane: Lane): Lane => ({ ...lane, channelIds: [] });

/** A lane that one side emptied still stands there: a channel that the other side moves into it needs it. */
function everyLane(side: Lanes, other: Lanes): Lanes {
  const there = new Set(side.map(({ id }) => id));
  return [...side, ...other.filter(({ id }) => !there.has(id))].map(bare);
}

const homesOf = (lanes: Lanes): Readonly<Record<string, string>> =>
  Object.fromEntries(lanes.flatMap(({ id, channelIds }) => channelIds.map((channel) => [channel, id] as const)));
