// All lift-offs laid over each other at the front's fall: do they agree?

import { type Component, createMemo, For, Show } from "solid-js";
import type { ChannelWindow, WindowRequest } from "../../../workers/protocol.ts";
import type { LiftOff } from "../../exhaust/analysis.ts";
import { createLatest } from "../state/latest.ts";
import { useWorkbench } from "../state/workbench.ts";

const [before, after] = [1, 4];
const [wide, high] = [336, 170];
const [low, top] = [-0.05, 1.05];

interface Laid {
  readonly lift: LiftOff;
  readonly front: string;
  readonly rear: string;
}

export const LiftOffOverlay: Component = () => {
  const { service, summary, liftOffs, bench } = useWorkbench();
  const sensors = createMemo(() => {
    const ofBank = (summary()?.channels ?? []).filter((c) => c.bank === bench.state().bank);
    const [front, rear] = [ofBank.find((c) => c.role === "front-o2"), ofBank.find((c) => c.role === "rear-o2")];
    return front && rear ? { front: front.id, rear: rear.id } : null;
  });
  const ask = createMemo(() => {
    const [capture, pair] = [summary(), sensors()];
    const lifts = liftOffs.list().filter((one) => one.rejected === null && one.frontFall.value !== null);
    return capture && pair && lifts.length > 1 ? { id: capture.id, pair, lifts } : null;
  });
  const laid = createLatest(
    ask,
    ({ id, pair, lifts }) => Promise.all(lifts.map((lift) => layDown(service.window, id, pair, lift))),
    { about: ({ id }) => id },
  );
  return (
    <Show when={laid.value()}>
      {(all) => (
        <svg
          class="overlay-plot"
          viewBox={`0 0 ${wide} ${high}`}
          role="img"
          aria-label="All lift-offs laid over each other at the front's fall"
        >
          <path d={`M0 ${y(0.45)}H${wide}`} stroke="var(--grid)" stroke-dasharray="2 4" />
          <For each={all()}>
            {({ front, rear, lift }) => (
              <g opacity={liftOffs.selected() === null || liftOffs.selected()?.id === lift.id ? 0.85 : 0.3}>
                <path d={front} fill="none" stroke="var(--front)" stroke-width="1.2" />
                <path d={rear} fill="none" stroke="var(--rear)" stroke-width="2" />
              </g>
            )}
          </For>
          <For each={[0, 1, 2, 3]}>
            {(second) => (
              <text x={x(second)} y={high - 2} text-anchor="middle" font-size="13" fill="var(--soft)">
                {second} s
              </text>
            )}
          </For>
        </svg>
      )}
    </Show>
  );
};

async function layDown(
  window: (request: WindowRequest) => Promise<readonly ChannelWindow[]>,
  captureId: string,
  pair: { readonly front: string; readonly rear: string },
  lift: LiftOff,
): Promise<Laid> {
  const at = lift.frontFall.value!;
  const span = { from: at - before, to: at + after };
  const windows = await window({ captureId, channelIds: [pair.front, pair.rear], span, width: 2 * wide });
  const path = (id: string) =>
    pathOf(
      windows.find((w) => w.channelId === id),
      at,
    );
  return { lift, front: path(pair.front), rear: path(pair.rear) };
}

const x = (time: number) => ((time + before) / (before + after)) * wide;
const y = (level: number) => 6 + (1 - (level - low) / (top - low)) * (high - 28);

/** A gap in the data is a gap in the line. */
function pathOf(window: ChannelWindow | undefined, at: number): string {
  let path = "";
  let pen = "M";
  for (let i = 0; window && i < window.times.length; i++) {
    const value = window.values[i]!;
    if (Number.isNaN(value)) pen = "M";
    else {
      path += `${pen}${x(window.times[i]! - at).toFixed(1)} ${y(Math.min(top, Math.max(low, value))).toFixed(1)}`;
      pen = "L";
    }
  }
  return path;
}
