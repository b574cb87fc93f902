// What an exhibit of a long view enlarges beside it: the lift-offs that count, each in the lane of the sensors.

import type { ChannelWindow } from "../../../workers/protocol.ts";
import type { LiftOff, Span } from "../../exhaust/terms/analysis.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { SheetDimension } from "../../report/exhibit/sheet.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import type { Ground } from "../core/ground.ts";
import type { Layers } from "../lanes/layers.ts";
import { delayDimension } from "../lift-offs/lift-offs.ts";

/** One span of one lane, with samples of its own. */
export interface DraftDetail {
  readonly title: string;
  readonly view: Span;
  readonly lane: LaneLook;
  readonly windows: readonly ChannelWindow[];
  readonly dimensions: readonly SheetDimension[];
  readonly liftOff: LiftOff;
}

/** s before and after the throttle closes. */
const around = { before: 1, after: 4 } as const;
/** A shorter view, in multiples of a detail, shows its lift-offs large enough. */
const leastView = 4;
const most = 3;
/** Columns asked for: a detail is less than half a sheet wide. */
const width = 1300;

type Scene = Pick<Ground, "bench" | "desk" | "summary"> & {
  readonly layers: Layers;
  readonly liftOffs: { list(): readonly LiftOff[] };
};

/** At most three, in the order of their time. */
export async function detailsIn(scene: Scene, view: Span): Promise<readonly DraftDetail[]> {
  const { bench, desk, summary, layers, liftOffs } = scene;
  const length = around.before + around.after;
  if (view.to - view.from < leastView * length) return [];
  const front = summary()?.channels.find((c) => c.role === "front-o2" && c.bank === bench.state().bank);
  const lane = bench.state().lanes.find((one) => front && one.channelIds.includes(front.id));
  if (!lane) return [];
  const counted = liftOffs.list().flatMap((lift, i) => (lift.setAside === null ? [{ lift, number: i + 1 }] : []));
  const inView = counted.filter(({ lift: { at } }) => at - around.before >= view.from && at + around.after <= view.to);
  const details = inView.slice(0, most).map(async ({ lift, number }): Promise<DraftDetail | null> => {
    const span = { from: lift.at - around.before, to: lift.at + around.after };
    const laid = await layers.over({ span, width, isOffered: false });
    const look = laid.lanes.find(({ id }) => id === lane.id);
    const delay = delayDimension(lift, lane.id, desk.limits().switchLevel);
    if (!look) return null;
    return {
      title: `lift-off ${number}, at ${formatTime(lift.at, 0.1)}`,
      view: span,
      lane: look,
      windows: laid.windows,
      dimensions: delay ? [{ ...delay, label: "" }] : [],
      liftOff: lift,
    };
  });
  return (await Promise.all(details)).filter((one) => one !== null);
}
