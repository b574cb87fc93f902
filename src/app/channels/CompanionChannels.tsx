// The channels of other recordings on this time axis. What each is, its unit and how it was picked up are told where that
// recording is on the bench.

import { type Component, For, Show } from "solid-js";
import type { LineLayer } from "../../drawing/layer.ts";
import { useGround } from "../core/ground.ts";
import { traceLook } from "../lanes/lane-looks.ts";
import { Fold } from "../parts/Fold.tsx";
import { roleWords } from "../words.ts";
import { LaneField, ShowField } from "./LaneField.tsx";

export const CompanionChannels: Component = () => {
  const { companions } = useGround();
  return (
    <For each={companions.list().map(({ captureId }) => captureId)}>
      {(id) => (
        <Show when={companions.list().find(({ captureId }) => captureId === id)}>
          {(companion) => (
            <section aria-label={`Same run: ${companion().record.fileName}`}>
              <h2>Same run: {companion().record.fileName}</h2>
              <For each={companion().channels.map((channel) => channel.id)}>
                {(channelId, i) => (
                  <Show when={companion().summary?.channels[i()]}>
                    {(channel) => {
                      const look = () => traceLook(channel(), companion().record.bench);
                      return <ChannelOfRun channelId={channelId} role={roleWords[channel().role]} look={look()} />;
                    }}
                  </Show>
                )}
              </For>
            </section>
          )}
        </Show>
      )}
    </For>
  );
};

const ChannelOfRun: Component<{
  readonly channelId: string;
  readonly role: string;
  readonly look: Pick<LineLayer, "label" | "look">;
}> = (props) => {
  const { bench } = useGround();
  const isHidden = () => bench.state().hidden.includes(props.channelId);
  return (
    <Fold
      head={
        <>
          <span class={`key-line ${props.look.look}`} />
          <span>{props.look.label}</span>
          <span class="now">{isHidden() ? "hidden" : props.role}</span>
        </>
      }
    >
      <ShowField channelId={props.channelId} />
      <LaneField channelId={props.channelId} />
    </Fold>
  );
};
