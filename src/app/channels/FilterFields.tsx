// What a channel is looked at through: as recorded, without spikes, or smoothed. A view; nothing recorded changes.

import { type Component, Show } from "solid-js";
import type { ChannelSummary } from "../../../workers/protocol.ts";
import { settingsOf } from "../../job/edits/channels.ts";
import { setFilter } from "../../job/edits/filters.ts";
import { type Filter, highestCutoff, longestSpikes, refusalOf } from "../../signal/filters/filter.ts";
import { formatNumber } from "../../signal/written/digits.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { numberIn } from "../parts/number-from.ts";

export const FilterFields: Component<{ readonly channel: ChannelSummary }> = (props) => {
  const { bench } = useGround();
  const id = () => props.channel.id;
  const filter = () => settingsOf(bench.state(), id()).filter ?? null;
  const step = () => 1 / (props.channel.rate.value ?? NaN);
  const set = (next: Filter | null) => bench.edit((state) => setFilter(state, id(), next));
  return (
    <>
      <label class="field wide">
        <span>Seen through</span>
        <select value={filter()?.kind ?? "none"} onChange={(event) => set(usual(event.currentTarget.value, step()))}>
          <option value="none">No filter, as recorded</option>
          <option value="median" disabled={usual("median", step()) === null}>
            Spikes taken out (median): ignition
          </option>
          <option value="low-pass" disabled={usual("low-pass", step()) === null}>
            Smoothed (low-pass)
          </option>
        </select>
      </label>
      <Show when={filter()}>{(one) => <FilterValue filter={one()} step={step()} onFilter={set} />}</Show>
    </>
  );
};

const FilterValue: Component<{
  readonly filter: Filter;
  readonly step: number;
  readonly onFilter: (filter: Filter) => void;
}> = (props) => {
  const isMedian = () => props.filter.kind === "median";
  const withValue = (value: number): Filter =>
    isMedian() ? { kind: "median", spikes: value / 1000 } : { kind: "low-pass", cutoff: value };
  const change = (field: HTMLInputElement) => {
    const value = numberIn(field, (typed) => refusalText(withValue(typed), props.step));
    if (value !== null && value !== undefined) props.onFilter(withValue(value));
  };
  const shown = () => (props.filter.kind === "median" ? 1000 * props.filter.spikes : props.filter.cutoff);
  return (
    <>
      <label class="field wide">
        <span>{isMedian() ? "Spikes up to, ms" : "Half of a swing is left at, Hz"}</span>
        <input
          inputmode="decimal"
          value={Number(shown().toPrecision(6))}
          onChange={(event) => change(event.currentTarget)}
        />
      </label>
      <p class="soft wide">
        Only a way of looking: what was recorded stays, drawn pale behind. Values, snapped ends and dimensions taken
        through it say so; the verdict, lift-offs and the readings of a span are of what was recorded.
      </p>
    </>
  );
};

/** What a filter begins with: ignition spikes of a millisecond or two; a tenth of a second to see the swing. */
function usual(kind: string, step: number): Filter | null {
  const fitting: Filter | null =
    kind === "median"
      ? { kind: "median", spikes: Math.max(0.002, rounded(step)) }
      : kind === "low-pass"
        ? { kind: "low-pass", cutoff: Math.min(10, rounded(highestCutoff(step) / 2)) }
        : null;
  return fitting && refusalOf(fitting, step) === null ? fitting : null;
}

const rounded = (value: number) => Number(value.toPrecision(2));

function refusalText(filter: Filter, step: number): string | null {
  const refusal = refusalOf(filter, step);
  if (refusal === "too-fast")
    return `At ${formatNumber(1 / step, 0)} samples/s it can be smoothed at ${formatValue(highestCutoff(step), "Hz")} at most.`;
  if (refusal === "too-long")
    return `Spikes of ${formatValue(longestSpikes(step), "s")} at most can be taken out here.`;
  return refusal && "A filter wants a number above 0.";
}
