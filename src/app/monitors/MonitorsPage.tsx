// Results of the car's own monitors, out of raw replies; the catalyst's on top, beside our own reading of the store.

import { type Component, createSignal, For, Show } from "solid-js";
import { changeEvidence, evidenceOf } from "../../job/edits/paper-edits.ts";
import type { Moment } from "../../job/evidence/evidence.ts";
import { monitorsInReplies } from "../../job/monitors/monitor-replies.ts";
import type { MonitorResult } from "../../job/monitors/result.ts";
import { saidOf } from "../../job/monitors/result-words.ts";
import { formatValue, readingInWords } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { TextField } from "../parts/Fields.tsx";
import { MomentChoice } from "../parts/MomentChoice.tsx";
import { Unread } from "../parts/Unread.tsx";

export const MonitorsPage: Component = () => {
  const { desk, readings } = useGround();
  const [moment, setMoment] = createSignal<Moment>("before");
  const text = () => evidenceOf(desk.job(), moment()).monitorReplies;
  const read = () => monitorsInReplies(text());
  /** The store, else what passed in a lift-off: its ceiling. */
  const store = () => {
    const whole = readings.whole();
    if (whole?.store && whole.store.grade !== "not-resolvable")
      return `${readingInWords(whole.store)} of oxygen stored`;
    const passed = whole?.liftOff?.storedOxygen;
    return passed ? `${readingInWords(passed)} of oxygen passed until the rear saw it` : null;
  };
  return (
    <>
      <MomentChoice value={moment()} onChange={setMoment} />
      <TextField
        label="Raw replies of services $05 and $06, kept as they are pasted"
        rows={5}
        most={100_000}
        value={text()}
        placeholder="7E8 10 0A 46 21 80 20 00 C0 …"
        onChange={(monitorReplies) => desk.change((job, at) => changeEvidence(job, at, moment(), { monitorReplies }))}
      />
      <Unread lines={text().trim() === "" ? [] : read().unread} />
      <Show when={read().results.length > 0} fallback={<p class="soft">No result is saved here yet.</p>}>
        <div class="table-scroll">
          <table class="paper-table monitor-results">
            <thead>
              <tr>
                <th scope="col">Monitor</th>
                <th scope="col">Test</th>
                <th scope="col">Result</th>
                <th scope="col">Value</th>
                <th scope="col">Limits</th>
                <th scope="col">Margin</th>
              </tr>
            </thead>
            <tbody>
              <For each={read().results}>{(result) => <ResultRow result={result} />}</For>
            </tbody>
          </table>
        </div>
        <Show when={store()}>
          {(reading) => (
            <p class="statement">
              Our own reading of the recording on the bench: {reading()}. The car's number is the maker's own measure:
              only the maker's data tells how the two compare.
            </p>
          )}
        </Show>
        <p class="soft">
          Scalings were read in another's table or are from memory; large may be good or bad, which the live limit
          tells. The maker's own limit decides, not this tool.
        </p>
      </Show>
    </>
  );
};

const outcomes = { passed: "passed", failed: "failed", "not-run": "has not run", constant: "a constant" } as const;

const ResultRow: Component<{ readonly result: MonitorResult }> = (props) => {
  const say = (value: number) => saidOf(props.result, value);
  return (
    <tr>
      <th scope="row">{props.result.monitor}</th>
      <td>
        {props.result.test}
        <Show when={props.result.note}>
          <span class="soft"> ({props.result.note})</span>
        </Show>
      </td>
      <td class={props.result.outcome === "failed" ? "bad" : props.result.outcome === "passed" ? "good" : ""}>
        {outcomes[props.result.outcome]}
      </td>
      <td class="number" title={props.result.bytes}>
        {say(props.result.value)}
        <Show when={props.result.unit === "raw"}>
          <span class="soft"> raw</span>
        </Show>
      </td>
      <td class="number">{limitsOf(props.result, say)}</td>
      <td class="number">
        <Show when={props.result.margin !== null} fallback="–">
          {formatValue(props.result.margin, "%", 1)}
          <span class="where-narrow soft"> margin</span>
        </Show>
      </td>
    </tr>
  );
};

function limitsOf({ low, high }: MonitorResult, say: (value: number) => string): string {
  if (low === null && high === null) return "–";
  if (low === null) return `at most ${say(high!)}`;
  return high === null ? `at least ${say(low)}` : `${say(low)} to ${say(high)}`;
}
