// One end of a dimension as a field: typed, or set on the nearest crossing or extreme. What cannot be taken is said in its place.

import { type Component, createSignal, createUniqueId, Show } from "solid-js";
import type { End } from "../../job/edits/dimensions.ts";
import type { Dimension } from "../../job/record/job.ts";
import { decimalsOfStep, formatNumber } from "../../signal/written/digits.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { numberFrom } from "../../signal/written/typed-number.ts";
import { storedUnit } from "../../signal/written/writing.ts";
import { useGround } from "../core/ground.ts";
import { CrossingIcon, ExtremeIcon } from "../parts/icons.tsx";
import { whyNoNumber } from "../parts/number-from.ts";
import { useDimensions } from "./dimensions.ts";

export const EndField: Component<{ readonly dimension: Dimension; readonly end: End }> = (props) => {
  const { view, summary, companions } = useGround();
  const dimensions = useDimensions();
  const told = createUniqueId();
  const [refusal, refuse] = createSignal<string | null>(null);
  const isTime = () => props.dimension.kind === "time";
  const anchor = () => props.dimension[props.end];
  const value = () => (isTime() ? anchor().time : anchor().level);
  const step = () => (isTime() ? Math.max((view.view().to - view.view().from) / 1000, 1e-6) : 0.001);
  const unit = () => (isTime() ? "s" : storedUnit(props.dimension.reading.unit));
  const written = () => formatNumber(value(), decimalsOfStep(step())).replace(/\u202f/g, "");
  const take = (field: HTMLInputElement) => {
    const typed = numberFrom(field.value);
    const why = typed === null ? whyNoNumber(field.value) : outside(typed, isTime() ? companions.whole() : null);
    refuse(why);
    if (why === null && typed !== null) dimensions.moveEnd(props.dimension.id, props.end, typed);
    if (why === null) field.value = written();
  };
  const snap = async (to: "crossing" | "extreme") => {
    const isFound = await dimensions.snap(props.dimension.id, props.end, to);
    refuse(isFound ? null : `There is no ${to} near this end. Move it closer, or zoom out.`);
  };
  return (
    <div class="field end-field">
      <label>
        <span class="soft">
          {props.end === "from" ? "From" : "To"}, {unit()}
        </span>
        <input
          data-field={props.end}
          inputmode="decimal"
          value={written()}
          aria-invalid={refusal() !== null}
          aria-describedby={refusal() === null ? undefined : told}
          onChange={(event) => take(event.currentTarget)}
        />
      </label>
      <div class="row">
        <Show when={isTime()}>
          <button type="button" title="Set on the nearest crossing" onClick={() => void snap("crossing")}>
            <CrossingIcon />
            <span>Crossing</span>
          </button>
        </Show>
        <button type="button" title="Set on the nearest extreme" onClick={() => void snap("extreme")}>
          <ExtremeIcon />
          <span>Extreme</span>
        </button>
      </div>
      <Show when={refusal() ?? snapText(anchor().snap, summary()?.channels ?? [])}>
        {(text) => (
          <p id={told} classList={{ refused: refusal() !== null }} role="status">
            {text()}
          </p>
        )}
      </Show>
    </div>
  );
};

/** What an end was set on. */
function snapText(
  snap: Dimension["from"]["snap"],
  channels: readonly { readonly id: string; readonly name: string }[],
): string | undefined {
  if (!snap) return undefined;
  const name = channels.find(({ id }) => id === snap.channelId)?.name ?? snap.channelId;
  return `on ${snapWords[snap.to]} of ${name}`;
}

const snapWords = { sample: "a sample", crossing: "a crossing", extreme: "an extreme" } as const;

/** Why an end cannot stand at a time; null where it can. */
function outside(typed: number, whole: { readonly from: number; readonly to: number } | null): string | null {
  if (!whole || (typed >= whole.from && typed <= whole.to)) return null;
  return `The recording goes from ${formatTime(whole.from, 0.01)} to ${formatTime(whole.to, 0.01)}. It stays where it was.`;
}
