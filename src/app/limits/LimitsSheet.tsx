// Every threshold that findings use, with its meaning and source. A change holds for this job and is shown wherever used.

import { type Component, For, Show } from "solid-js";
import { defaultLimits, type LimitName, limitsInForce, shownLimit, storedLimit } from "../../exhaust/terms/limits.ts";
import { changeLimit, changePipe } from "../../job/edits/make.ts";
import { formatExact } from "../../signal/written/digits.ts";
import { asWritten } from "../../signal/written/words.ts";
import { storedUnit } from "../../signal/written/writing.ts";
import { useGround } from "../core/ground.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { numberIn } from "../parts/number-from.ts";

const names = Object.keys(defaultLimits) as LimitName[];

export const LimitsSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const { desk } = useGround();
  return (
    <Dialog title="Limits of this job" onClose={props.onClose}>
      <p class="soft">
        None of these is a maker's limit. Where the maker gives one, it comes first. What is changed here holds for this
        job and is stated on its exhibits.
      </p>
      <label class="field">
        <span>Gas volume between front and rear sensor, litres (empty: not known)</span>
        <input
          inputmode="decimal"
          value={desk.job().pipe?.litres ?? ""}
          onChange={(event) => {
            const litres = numberIn(event.currentTarget, (value) => (value > 0 ? null : "A volume is above 0 litres."));
            if (litres !== undefined) desk.change((job, at) => changePipe(job, at, litres));
          }}
        />
      </label>
      <ul class="lines">
        <For each={names}>{(name) => <LimitRow name={name} />}</For>
      </ul>
    </Dialog>
  );
};

const LimitRow: Component<{ readonly name: LimitName }> = (props) => {
  const { desk } = useGround();
  const limit = () => defaultLimits[props.name];
  const inForce = () => limitsInForce(desk.job().limits)[props.name];
  const isChanged = () => inForce() !== limit().value;
  const said = (value: number) => formatExact(shownLimit(props.name, value).value);
  const change = (field: HTMLInputElement) => {
    const typed = numberIn(field);
    if (typed === undefined) return;
    const value = typed === null ? null : storedLimit(props.name, typed);
    desk.change((job, at) => changeLimit(job, at, props.name, value === limit().value ? null : value));
  };
  return (
    <li>
      <label class="grow" for={`limit-${props.name}`}>
        {asWritten(limit().meaning)}
        <span class="soft">
          {" "}
          · {limit().source}
          <Show when={isChanged()}>, {said(limit().value)} as delivered</Show>
        </span>
      </label>
      <Show when={isChanged()}>
        <button
          type="button"
          class="plain"
          onClick={() => desk.change((job, at) => changeLimit(job, at, props.name, null))}
        >
          As delivered
        </button>
      </Show>
      <input
        id={`limit-${props.name}`}
        class="short"
        inputmode="decimal"
        value={said(inForce())}
        onChange={(event) => change(event.currentTarget)}
      />
      <span class="unit soft">{storedUnit(shownLimit(props.name, limit().value).unit)}</span>
    </li>
  );
};
