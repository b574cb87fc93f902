// The rear of the suspect less that of the reference, in a lane of its own below all others.

import { type Accessor, createMemo } from "solid-js";
import { type LineLayer, linesOf } from "../../drawing/layer.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { Ground } from "../core/ground.ts";
import type { LayerKind, Windows } from "../lanes/layers.ts";
import { type Counterparts, referenceId } from "./counterparts.ts";
import { differenceLine } from "./difference-line.ts";
import type { Laying } from "./laying.ts";

const differenceId = referenceId("difference");

export function createDifferenceLayer(
  { summary, bench }: Ground,
  counterparts: Accessor<Counterparts>,
  settings: Laying["settings"],
): LayerKind {
  const rears = createMemo(() => {
    const rear = summary()?.channels.find((c) => c.role === "rear-o2" && c.bank === bench.state().bank);
    const other = rear && counterparts().get(rear.id);
    return rear && other ? { mine: rear.id, theirs: referenceId(other.id) } : null;
  });
  const differenceOf = (windows: Windows): Windows => {
    const find = (id: string | undefined) => windows.find(({ channelId }) => channelId === id);
    const [mine, theirs] = [find(rears()?.mine), find(rears()?.theirs)];
    if (!settings().difference || !mine || !theirs) return [];
    return [{ channelId: differenceId, ...differenceLine(mine, theirs) }];
  };
  return {
    windows: differenceOf,
    windowsOver: (_, before) => differenceOf(before),
    lay(lanes, seen) {
      const sensors = lanes.find((lane) => linesOf(lane).some(({ look }) => look === "rear"));
      const isThere = settings().difference && sensors && seen.windows().has(differenceId);
      return isThere ? [...lanes, differenceLane(sensors)] : lanes;
    },
  };
}

const differenceLane = ({ unit, share }: LaneLook): LaneLook => ({
  id: differenceId,
  title: "Suspect less reference, rear",
  unit,
  layers: [line(unit)],
  scale: "fit",
  share: 0.6 * share,
  guides: [0],
});

const line = (unit: string): LineLayer => ({
  form: "line",
  source: "difference",
  channelId: differenceId,
  label: "Difference",
  unit,
  look: "other",
});
