// Whether a channel is shown, and in which lane; the same for a channel of another recording on this time axis.

import { type Component, For, Show } from "solid-js";
import { hideChannel, laneOf, moveChannel, shiftLane, showChannel, splitChannel } from "../../job/edits/lanes.ts";
import { useGround } from "../core/ground.ts";

export const ShowField: Component<{ readonly channelId: string }> = (props) => {
  const { bench } = useGround();
  return (
    <label class="check wide">
      <input
        type="checkbox"
        checked={!bench.state().hidden.includes(props.channelId)}
        onChange={(event) => {
          const edit = event.currentTarget.checked ? showChannel : hideChannel;
          bench.edit((state) => edit(state, props.channelId));
        }}
      />
      Show it
    </label>
  );
};

/** In which lane it stands, and where that lane is. */
export const LaneField: Component<{ readonly channelId: string }> = (props) => {
  const { bench, summary, companions } = useGround();
  const lane = () => laneOf(bench.state(), props.channelId);
  const all = () => [...(summary()?.channels ?? []), ...companions.list().flatMap(({ channels }) => channels)];
  const nameOf = (ids: readonly string[]) => ids.map((one) => all().find((c) => c.id === one)?.name ?? one).join(", ");
  const choose = (to: string) =>
    bench.edit((state) =>
      to === "own" ? splitChannel(state, props.channelId) : moveChannel(state, props.channelId, to),
    );
  return (
    <>
      <label class="field wide">
        <span>Lane</span>
        <select value={lane()?.id} onChange={(event) => choose(event.currentTarget.value)}>
          <For each={bench.state().lanes}>
            {(one) => (
              <option value={one.id} selected={one.id === lane()?.id}>
                {one.id === lane()?.id && one.channelIds.length === 1
                  ? "Its own"
                  : `With ${nameOf(one.channelIds.filter((c) => c !== props.channelId))}`}
              </option>
            )}
          </For>
          <Show when={(lane()?.channelIds.length ?? 0) > 1}>
            <option value="own">Its own</option>
          </Show>
        </select>
      </label>
      <div class="row wide">
        <button type="button" onClick={() => bench.edit((state) => shiftLane(state, lane()?.id ?? "", -1))}>
          Lane up
        </button>
        <button type="button" onClick={() => bench.edit((state) => shiftLane(state, lane()?.id ?? "", 1))}>
          Lane down
        </button>
      </div>
    </>
  );
};
