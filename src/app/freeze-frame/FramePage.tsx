// The freeze frame beside the recording: typed, pasted or read from bytes, and whether the recording has been there.

import { type Component, createSignal, For, Show } from "solid-js";
import { driveThere, quantityNames, visitedInWords } from "../../exhaust/conditions/visited-words.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { Stay, Visited, VisitedQuantity } from "../../exhaust/terms/conditions.ts";
import { changeEvidence, evidenceOf } from "../../job/edits/paper-edits.ts";
import type { FreezeFrame } from "../../job/evidence/evidence.ts";
import { frameInText } from "../../job/freeze-frame/frame-text.ts";
import type { ParameterId } from "../../job/parameters/parameters.ts";
import { formatSpan, formatTolerance, formatValue } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { PickField, TextField } from "../parts/Fields.tsx";
import { Unread } from "../parts/Unread.tsx";
import { valueLines } from "../units/say-values.ts";

export const FramePage: Component<{ readonly onShow: () => void }> = (props) => {
  const { desk, readings, shown, summary } = useGround();
  const frame = () => evidenceOf(desk.job(), "before").frame;
  const codes = () => evidenceOf(desk.job(), "before").codes.map(({ code }) => code);
  const keep = (next: FreezeFrame | null) =>
    desk.change((job, at) => changeEvidence(job, at, "before", { frame: next }));
  const go = (key: string, span: Stay) => {
    shown.go(`frame.${key}`, span as Span);
    props.onShow();
  };
  return (
    <div class="paper-columns">
      <section aria-label="Freeze frame">
        <h3>Freeze frame</h3>
        <TakeFrame frame={frame()} onTake={keep} />
        <Show when={frame()} fallback={<p class="soft">No freeze frame is saved yet.</p>}>
          {(held) => (
            <>
              <PickField
                label="Stored by"
                value={held().code}
                options={[
                  ["", "not said"],
                  ...[...new Set([...codes(), held().code].filter(Boolean))].map((code) => [code, code] as const),
                ]}
                onChange={(code) => keep({ ...held(), code })}
              />
              <FrameTable frame={held()} onChange={keep} />
              <button type="button" class="danger" onClick={() => keep(null)}>
                Take the freeze frame out
              </button>
            </>
          )}
        </Show>
      </section>
      <section aria-label="Visited">
        <h3>Has the recording been there?</h3>
        <Show
          when={summary() && frame()}
          fallback={<p class="soft">{summary() ? "Save a freeze frame" : "Open a recording"}: then it shows here.</p>}
        >
          <Show when={readings.whole()?.visited} fallback={<p class="soft">{waiting(readings.isReadingWhole())}</p>}>
            {(visited) => <VisitedList visited={visited()} onGo={go} />}
          </Show>
        </Show>
      </section>
    </div>
  );
};

const waiting = (isReading: boolean): string =>
  isReading ? "The recording is being looked through …" : "The freeze frame names nothing that a recording could hold.";

const TakeFrame: Component<{ readonly frame: FreezeFrame | null; readonly onTake: (frame: FreezeFrame) => void }> = (
  props,
) => {
  const [text, setText] = createSignal("");
  const [unread, setUnread] = createSignal<readonly { line: number; says: string }[]>([]);
  const take = () => {
    const told = frameInText(text(), props.frame);
    setUnread(told.unread);
    if (told.frame === null) return;
    props.onTake(told.frame);
    if (unread().length === 0) setText("");
  };
  return (
    <div class="take">
      <TextField
        label="Type or paste it with units, or raw replies ($42)"
        rows={4}
        value={text()}
        placeholder={"Engine speed 2000 rpm\nRoad speed 75 km/h\nLoad 38 %\nCoolant 88 °C"}
        onChange={setText}
      />
      <button type="button" class="main" disabled={text().trim() === ""} onClick={take}>
        Take over
      </button>
      <Unread lines={unread()} />
    </div>
  );
};

const FrameTable: Component<{ readonly frame: FreezeFrame; readonly onChange: (frame: FreezeFrame) => void }> = (
  props,
) => {
  const without = (id: ParameterId) => {
    const { [id]: _, ...values } = props.frame.values;
    props.onChange({ ...props.frame, values });
  };
  return (
    <table class="value-table">
      <tbody>
        <For each={valueLines(props.frame.values)}>
          {([id, name, value]) => (
            <tr>
              <th scope="row">{name}</th>
              <td>{value}</td>
              <td class="tight">
                <button type="button" class="plain" aria-label={`Take ${name} out`} onClick={() => without(id)}>
                  Take out
                </button>
              </td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  );
};

const VisitedList: Component<{
  readonly visited: Visited;
  readonly onGo: (key: string, span: Stay) => void;
}> = (props) => (
  <>
    <p class={`statement ${props.visited.together.length > 0 ? "points-away" : "cannot-say"}`}>
      {visitedInWords(props.visited)}
    </p>
    <Show when={props.visited.together.length === 0}>
      <p class="caution">{driveThere(props.visited.quantities)}</p>
    </Show>
    <Show when={props.visited.together.length > 0}>
      <div class="visited-row">
        <b>All at once</b>
        <SpanButtons name="All at once" spans={props.visited.together} onGo={(span) => props.onGo("all", span)} />
      </div>
    </Show>
    <For each={props.visited.quantities}>
      {(one) => (
        <div class="visited-row">
          <b>{capital(quantityNames[one.quantity])}</b> <span class="soft">{aboutOf(one)}</span>
          <SpanButtons
            name={quantityNames[one.quantity]}
            spans={one.spans}
            onGo={(span) => props.onGo(one.quantity, span)}
          />
        </div>
      )}
    </For>
  </>
);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function aboutOf({ quantity, wanted, tolerance, unit, told, nearest }: VisitedQuantity): string {
  const want =
    quantity === "fuel-status" ? "as stored" : `${formatValue(wanted, unit)} ± ${formatTolerance(tolerance, unit)}`;
  if (told === "not-recorded") return `${want}: not recorded`;
  if (told === "visited") return want;
  return `${want}: never${nearest === null || quantity === "fuel-status" ? "" : `, nearest ${formatValue(nearest, unit)}`}`;
}

/** The longest first; more than six are counted. */
const SpanButtons: Component<{
  readonly name: string;
  readonly spans: readonly Stay[];
  readonly onGo: (span: Stay) => void;
}> = (props) => {
  const longest = () => [...props.spans].sort((a, b) => b.to - b.from - (a.to - a.from)).slice(0, 6);
  return (
    <Show when={props.spans.length > 0}>
      <div class="row">
        <For each={longest()}>
          {(span) => (
            <button
              type="button"
              aria-label={`${props.name}: go to ${spanText(span)}`}
              onClick={() => props.onGo(span)}
            >
              {spanText(span)}
            </button>
          )}
        </For>
        <Show when={props.spans.length > 6}>
          <span class="soft">and {props.spans.length - 6} shorter</span>
        </Show>
      </div>
    </Show>
  );
};

const spanText: (span: Stay) => string = formatSpan;
