// The lift-offs of the recording: touch one to see it, step through them, add, move or set one aside.

import { type Component, createSignal, For, Show } from "solid-js";
import type { LiftOff } from "../../exhaust/terms/analysis.ts";
import {
  formatReading,
  formatTime,
  formatValue,
  readingAloud,
  readingInWords,
} from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import type { Readings } from "../core/readings.ts";
import { fuelCutWords } from "../words.ts";
import { LiftOffOverlay } from "./LiftOffOverlay.tsx";
import { useLiftOffs } from "./lift-offs.ts";

export const LiftOffList: Component = () => {
  const { readings } = useGround();
  const liftOffs = useLiftOffs();
  return (
    <section aria-label="Lift-offs">
      <div class="section-head">
        <h2>Lift-offs</h2>
        <button type="button" class="plain" onClick={() => liftOffs.place(liftOffs.placing() ? null : { kind: "add" })}>
          {liftOffs.placing()?.kind === "add" ? "Cancel" : "Add one"}
        </button>
      </div>
      <Show when={liftOffs.list().length > 0} fallback={<p class="soft">{noneWord(readings)}</p>}>
        <ul class="events" classList={{ stale: readings.isReadingWhole() }}>
          <For each={liftOffs.list()}>{(one, i) => <LiftOffLine lift={one} number={i() + 1} />}</For>
        </ul>
        <Show when={liftOffs.list().length > 1}>
          <LiftOffOverlay />
        </Show>
      </Show>
    </section>
  );
};

function noneWord({ whole, wholeProblem }: Readings): string {
  if (whole()) return "None found.";
  return wholeProblem() ? "Not looked for: the recording could not be read as a whole." : "Looking for them …";
}

const LiftOffLine: Component<{ readonly lift: LiftOff; readonly number: number }> = (props) => {
  const liftOffs = useLiftOffs();
  const isSelected = () => liftOffs.selected()?.id === props.lift.id;
  const text = () => formatReading(props.lift.delay);
  const about = () =>
    props.lift.setAside === null
      ? circumstances(props.lift)
      : `${props.lift.setAside === "rule" ? "does not count" : "set aside"}: ${props.lift.rejected}`;
  const name = () =>
    `Lift-off ${props.number} at ${formatTime(props.lift.at, 0.1)}, delay ${readingAloud(props.lift.delay)}, ${about()}`;
  return (
    <li>
      <button
        type="button"
        class="event"
        classList={{ rejected: props.lift.setAside !== null }}
        aria-current={isSelected()}
        aria-label={name()}
        onClick={() => liftOffs.select(isSelected() ? null : props.lift.id)}
      >
        <b>{props.number}</b> <span class="at">at {formatTime(props.lift.at, 0.1)}, delay</span>{" "}
        <span class="value">{text().value}</span> <span class="sub right">{text().bounds}</span>{" "}
        <span class="sub">{about()}</span>
      </button>
      <Show when={isSelected()}>
        <LiftOffTools lift={props.lift} />
      </Show>
    </li>
  );
};

function circumstances(lift: LiftOff): string {
  const flow = lift.airFlow === null ? [] : [formatValue(lift.airFlow, "g/s")];
  const speed = lift.engineSpeed === null ? [] : [formatValue(lift.engineSpeed, "1/min", 1)];
  return [...flow, ...speed, fuelCutWords[lift.fuelCut]].join(" · ");
}

const LiftOffTools: Component<{ readonly lift: LiftOff }> = (props) => {
  const liftOffs = useLiftOffs();
  const [isAsking, ask] = createSignal(false);
  return (
    <div class="event-tools">
      <ul class="facts-list">
        <Show when={props.lift.storedOxygen.value !== null}>
          <li>Oxygen that passed: {readingInWords(props.lift.storedOxygen)}</li>
        </Show>
        <Show when={props.lift.corrected}>
          {(corrected) => <li>Less transport and lag: {readingInWords(corrected())}</li>}
        </Show>
        <Show when={props.lift.richAgain.value !== null}>
          <li>Rear rich again later than the front by {readingInWords(props.lift.richAgain)}</li>
        </Show>
        <For each={props.lift.remarks}>{(remark) => <li>{remark}</li>}</For>
        <Show when={props.lift.delay.because}>{(because) => <li>{because()}</li>}</Show>
      </ul>
      <Show
        when={isAsking()}
        fallback={
          <div class="row">
            <button type="button" onClick={() => liftOffs.place({ kind: "move", id: props.lift.id })}>
              Move
            </button>
            <Show
              when={props.lift.setAside === null}
              fallback={
                <button type="button" onClick={() => liftOffs.accept(props.lift)}>
                  {props.lift.setAside === "rule" ? "Count it all the same" : "Let it count"}
                </button>
              }
            >
              <button type="button" onClick={() => ask(true)}>
                Set aside
              </button>
            </Show>
          </div>
        }
      >
        <WhyAside id={props.lift.id} onDone={() => ask(false)} />
      </Show>
    </div>
  );
};

const WhyAside: Component<{ readonly id: string; readonly onDone: () => void }> = (props) => {
  const liftOffs = useLiftOffs();
  const [reason, setReason] = createSignal("");
  const reject = () => {
    liftOffs.reject(props.id, reason().trim() || "set aside by hand");
    props.onDone();
  };
  return (
    <>
      <label class="field">
        <span>Why does it not count?</span>
        <input value={reason()} onInput={(event) => setReason(event.currentTarget.value)} placeholder="gear change" />
      </label>
      <div class="row">
        <button type="button" onClick={reject}>
          Set aside
        </button>
        <button type="button" class="plain" onClick={() => props.onDone()}>
          Keep it
        </button>
      </div>
    </>
  );
};
