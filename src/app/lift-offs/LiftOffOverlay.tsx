// All lift-offs laid over each other at the front's fall: do they agree?

import { type Component, createMemo, Show } from "solid-js";
import type { ChannelWindow, WindowRequest } from "../../../workers/protocol.ts";
import type { Polyline } from "../../drawing/paths.ts";
import type { LiftOff } from "../../exhaust/terms/analysis.ts";
import { EventOverlay } from "../../plot/pictures/EventOverlay.tsx";
import type { EventTraces } from "../../plot/pictures/picture-types.ts";
import { useGround } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { useLiftOffs } from "./lift-offs.ts";

/** About the front's fall, s. */
const span = { from: -1, to: 4 };
const pixels = 700;

interface Numbered {
  readonly lift: LiftOff;
  /** As the list counts them. */
  readonly number: string;
}

type AskWindow = (request: WindowRequest) => Promise<readonly ChannelWindow[]>;

export const LiftOffOverlay: Component = () => {
  const { service, summary, bench, desk } = useGround();
  const liftOffs = useLiftOffs();
  const level = () => desk.limits().switchLevel;
  const sensors = createMemo(() => {
    const ofBank = (summary()?.channels ?? []).filter((c) => c.bank === bench.state().bank);
    const [front, rear] = [ofBank.find((c) => c.role === "front-o2"), ofBank.find((c) => c.role === "rear-o2")];
    return front && rear ? [front.id, rear.id] : null;
  });
  const ask = createMemo(() => {
    const [capture, ids] = [summary(), sensors()];
    const numbered = liftOffs.list().map((lift, i) => ({ lift, number: String(i + 1) }));
    const lifts = numbered.filter(({ lift }) => lift.setAside !== "hand" && lift.frontFall.value !== null);
    return capture && ids && lifts.length > 1 ? { take: capture.take, ids, lifts } : null;
  });
  const laid = createLatest(
    ask,
    ({ take, ids, lifts }) => Promise.all(lifts.map((one) => layDown(service.window, { take, channelIds: ids }, one))),
    { about: ({ take }) => take.captureId },
  );
  return (
    <Show when={laid.value()}>
      {(events) => (
        <div class="picture">
          <EventOverlay
            events={events()}
            span={span}
            scale="fit"
            unit="V"
            guides={[level()]}
            level={level()}
            selected={liftOffs.selected()?.id ?? null}
            onSelect={liftOffs.select}
          />
        </div>
      )}
    </Show>
  );
};

async function layDown(
  ask: AskWindow,
  what: Pick<WindowRequest, "take" | "channelIds">,
  { lift, number }: Numbered,
): Promise<EventTraces> {
  const at = lift.frontFall.value!;
  const windows = await ask({ ...what, span: { from: at + span.from, to: at + span.to }, width: pixels });
  const [front = null, rear = null] = what.channelIds.map((id) =>
    relativeTo(
      at,
      windows.find((w) => w.channelId === id),
    ),
  );
  return { id: lift.id, label: number, front, rear, delay: lift.delay };
}

function relativeTo(at: number, window: ChannelWindow | undefined): Polyline | null {
  return window ? { ...window, times: window.times.map((time) => time - at) } : null;
}
