// What each channel is, how it is named and how it was picked up; where it stands; what was guessed while reading.

import { type Component, createMemo, For, Show } from "solid-js";
import type { CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import { type Bank, type Role, roles } from "../../capture/model/capture.ts";
import { remarkText } from "../../capture/model/remarks.ts";
import {
  correctionText,
  pickups,
  resetChannel,
  setBank,
  setChannel,
  setRole,
  settingsOf,
  setUnit,
} from "../../job/edits/channels.ts";
import { formatNumber } from "../../signal/written/digits.ts";
import { readingInWords } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { traceLook } from "../lanes/lane-looks.ts";
import { useOpening } from "../opening/opening.ts";
import { Fold } from "../parts/Fold.tsx";
import { numberIn } from "../parts/number-from.ts";
import { roleWords } from "../words.ts";
import { CompanionChannels } from "./CompanionChannels.tsx";
import { FilterFields } from "./FilterFields.tsx";
import { LaneField, ShowField } from "./LaneField.tsx";

export const ChannelsTab: Component<{ readonly summary: CaptureSummary }> = (props) => {
  const { bench } = useGround();
  const opening = useOpening();
  const byId = createMemo(() => new Map(props.summary.channels.map((c) => [c.id, c])));
  const ids = () => [...byId().keys()];
  const hasTwoBanks = () => new Set(props.summary.channels.map((c) => c.bank)).size > 1;
  return (
    <>
      <section aria-label="Channels">
        <h2>Channels</h2>
        <Show when={hasTwoBanks()}>
          <label class="field">
            <span>Bank that is judged</span>
            <select
              value={bench.state().bank}
              onChange={(event) => bench.edit((state) => setBank(state, Number(event.currentTarget.value) as Bank))}
            >
              <option value={1}>Bank 1</option>
              <option value={2}>Bank 2</option>
            </select>
          </label>
        </Show>
        <For each={ids()}>
          {(id) => (
            <Show when={byId().get(id)}>
              {(channel) => <ChannelFields channel={channel()} summary={props.summary} />}
            </Show>
          )}
        </For>
      </section>
      <CompanionChannels />
      <section aria-label="Recording">
        <h2>Recording</h2>
        <p>
          {props.summary.name}, {props.summary.format}
        </p>
        <Show when={props.summary.remarks.length > 0}>
          <ul class="remarks">
            <For each={props.summary.remarks}>
              {(remark) => (
                <li>
                  {remarkText(remark)}
                  {remark.count === undefined ? "" : ` (${remark.count})`}
                  <Show when={remark.where}>
                    <span class="soft"> ({remark.where})</span>
                  </Show>
                </li>
              )}
            </For>
          </ul>
        </Show>
        <button type="button" onClick={() => void opening.readDifferently()}>
          Read it differently …
        </button>
      </section>
    </>
  );
};

const ChannelFields: Component<{ readonly channel: ChannelSummary; readonly summary: CaptureSummary }> = (props) => {
  const { bench } = useGround();
  const id = () => props.channel.id;
  const settings = () => settingsOf(bench.state(), id());
  const look = () => traceLook(props.channel, bench.state());
  const isHidden = () => bench.state().hidden.includes(id());
  const correction = () => correctionText(settings(), props.channel.unit);
  return (
    <Fold
      head={
        <>
          <span class={`key-line ${look().look}`} />
          <span>{look().label}</span>
          <span class="now">{isHidden() ? "hidden" : roleWords[props.channel.role]}</span>
        </>
      }
    >
      <ShowField channelId={id()} />
      <MeaningFields channel={props.channel} />
      <label class="field wide">
        <span>Name on the bench</span>
        <input
          value={settings().label ?? ""}
          placeholder={props.channel.name}
          onInput={(event) =>
            bench.edit((state) => setChannel(state, id(), { label: event.currentTarget.value }), `name-${id()}`)
          }
        />
      </label>
      <LaneField channelId={id()} />
      <FilterFields channel={props.channel} />
      <PickupFields channel={props.channel} />
      <Show when={correction()}>{(text) => <p class="wide">{text()}</p>}</Show>
      <p class="soft wide">
        {formatNumber(props.channel.samples, 0)} samples, {readingInWords(props.channel.rate)}
        {props.channel.polled ? ", asked for in turn" : ""}
      </p>
      <div class="row wide">
        <button type="button" onClick={() => bench.edit((state) => resetChannel(state, id()))}>
          As the file has it
        </button>
      </div>
    </Fold>
  );
};

/** What the channel is, of which bank, in which unit. */
const MeaningFields: Component<{ readonly channel: ChannelSummary }> = (props) => {
  const { bench } = useGround();
  const id = () => props.channel.id;
  return (
    <>
      <label class="field wide">
        <span>What it is</span>
        <select
          value={props.channel.role}
          onChange={(event) => bench.edit((state) => setRole(state, id(), event.currentTarget.value as Role))}
        >
          <For each={roles}>{(role) => <option value={role}>{roleWords[role]}</option>}</For>
        </select>
      </label>
      <label class="field">
        <span>Bank</span>
        <select
          value={props.channel.bank}
          onChange={(event) =>
            bench.edit((state) => setChannel(state, id(), { bank: Number(event.currentTarget.value) as Bank }))
          }
        >
          <option value={1}>Bank 1</option>
          <option value={2}>Bank 2</option>
        </select>
      </label>
      <label class="field">
        <span>Unit</span>
        <input
          value={props.channel.unit}
          onChange={(event) => bench.edit((state) => setUnit(state, id(), event.currentTarget.value.trim()))}
        />
      </label>
    </>
  );
};

/** How the signal was picked up: worded presets, and the numbers behind them. */
const PickupFields: Component<{ readonly channel: ChannelSummary }> = (props) => {
  const { bench } = useGround();
  const id = () => props.channel.id;
  const settings = () => settingsOf(bench.state(), id());
  const change = (part: "gain" | "offset", field: HTMLInputElement) => {
    const notZero = (value: number) => (part === "gain" && value === 0 ? "Times 0 would leave nothing of it." : null);
    const typed = numberIn(field, notZero);
    if (typed === null || typed === undefined) return;
    bench.edit((state) => setChannel(state, id(), { [part]: typed }));
  };
  return (
    <>
      <label class="field wide">
        <span>How it was picked up</span>
        <select
          value={
            pickups.find((p) => p.change.gain === settings().gain)?.id ?? (settings().gain === 1 ? "plain" : "other")
          }
          onChange={(event) => {
            const chosen = pickups.find((p) => p.id === event.currentTarget.value);
            bench.edit((state) => setChannel(state, id(), chosen?.change ?? { gain: 1 }));
          }}
        >
          <option value="plain">Straight</option>
          <For each={pickups}>{(pickup) => <option value={pickup.id}>{pickup.label}</option>}</For>
          <Show when={settings().gain !== 1 && !pickups.some((p) => p.change.gain === settings().gain)}>
            <option value="other">× {settings().gain}</option>
          </Show>
        </select>
      </label>
      <label class="field">
        <span>Multiplied by</span>
        <input inputmode="decimal" value={settings().gain} onChange={(event) => change("gain", event.currentTarget)} />
      </label>
      <label class="field">
        <span>Added to every value, {props.channel.unit || "—"}</span>
        <input
          inputmode="decimal"
          value={settings().offset}
          onChange={(event) => change("offset", event.currentTarget)}
        />
      </label>
    </>
  );
};
