// Whose lift-offs the usual band is made of, and the way to more of them.

import { type Component, For, Show } from "solid-js";
import { compareRecordings } from "../../exhaust/comparing/compare.ts";
import { useGround } from "../core/ground.ts";
import { useSheets } from "../core/sheets.ts";
import { useComparing } from "./comparing.ts";
import type { Reference } from "./reference.ts";

export const BandMembers: Component = () => {
  const sheets = useSheets();
  const { desk } = useGround();
  const comparing = useComparing();
  const { band } = comparing;
  const traces = () => 1 + band.members().length;
  /** What of a member is unlike the recording here; "" where it compares fairly. */
  const unlike = ({ comparable }: Reference) => {
    const mine = comparing.suspect();
    const fair = mine ? compareRecordings(mine, comparable, [], desk.job().limits ?? {}).fair : [];
    const touches = fair.filter(({ ok, concern }) => !ok && (concern === "all" || concern === "lift-off"));
    return touches.map(({ what }) => what).join(", ");
  };
  return (
    <>
      <p class="soft" role="status" aria-label="Usual band">
        {band.events() > 1
          ? `Median and 5 to 95 % of ${band.events()} lift-offs of ${traces() === 1 ? "the reference" : `${traces()} traces`}, laid at each lift-off here.`
          : "A band needs two known-good lift-offs or more: add another trace."}
      </p>
      <ul class="lines" aria-label="In the usual band">
        <For each={band.members()}>
          {(member) => (
            <li>
              <div class="grow">
                {member.name}
                <Show when={unlike(member)}>{(what) => <p class="unlike">Unlike this recording: {what()}.</p>}</Show>
              </div>
              <button
                type="button"
                class="plain"
                aria-label={`Take ${member.name} out of the band`}
                onClick={() => band.toggle(member.key)}
              >
                Take out
              </button>
            </li>
          )}
        </For>
      </ul>
      <Show when={band.fetching()}>{(name) => <p class="soft">Fetching {name()} …</p>}</Show>
      <button type="button" onClick={() => sheets.open("shelf")}>
        Add known-good traces …
      </button>
    </>
  );
};
