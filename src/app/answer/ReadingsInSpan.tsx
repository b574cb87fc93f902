// The readings of the visible window or the chosen span, front and rear side by side.

import { type Component, createSignal, For, Show } from "solid-js";
import type { EvidenceKey, SpanReadings } from "../../../workers/protocol.ts";
import { cutsIn, cutsInWords } from "../../exhaust/lift-offs/cuts-in.ts";
import type { Activity, ActivityReadingName, Sensor, SensorReadingName } from "../../exhaust/terms/analysis.ts";
import { asRead } from "../../exhaust/terms/words.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { activityMeanings, activityWords, sensorMeaning, sensorOrder, sensorWord } from "../words.ts";
import { BecauseRow } from "./BecauseRow.tsx";
import { ChannelLevelsTable } from "./ChannelLevelsTable.tsx";
import { ReadingDoor } from "./ReadingDoor.tsx";

export const ReadingsInSpan: Component = () => {
  const { readings, span, view } = useGround();
  const measured = () => span() ?? view.view();
  const title = () => `${span() ? "In the span" : "In view"}, ${formatValue(measured().to - measured().from, "s")}`;
  return (
    <section aria-label="Readings" aria-busy={readings.isMeasuring()}>
      <h2>{title()}</h2>
      <Show when={!readings.isMeasuring() && readings.spanProblem()}>
        {(problem) => (
          <Show when={problem().code === "cancelled"} fallback={<ProblemNote problem={problem()} />}>
            <div class="progress-note">
              <p>{problem().what}</p>
              <button type="button" onClick={() => readings.again()}>
                Measure again
              </button>
            </div>
          </Show>
        )}
      </Show>
      <Show when={readings.spanShare() !== null}>
        <div class="progress-note">
          <div>
            <p>
              Measuring every sample,{" "}
              <span class="soft">{`${Math.floor(100 * (readings.spanShare() ?? 0))}\u00a0%`}</span>
            </p>
            <progress aria-label="Measuring" max={1} value={readings.spanShare() ?? 0} />
          </div>
          <button type="button" onClick={() => readings.stop()}>
            Stop
          </button>
        </div>
      </Show>
      <Show when={readings.inSpan()}>
        {(inSpan) => <ReadingsTable readings={inSpan()} stale={readings.isMeasuring()} />}
      </Show>
      <ChannelLevelsTable />
    </section>
  );
};

const ReadingsTable: Component<{ readonly readings: SpanReadings; readonly stale: boolean }> = (props) => {
  const { readings } = useGround();
  const cuts = () => cutsInWords(cutsIn(readings.whole()?.liftOffs ?? [], props.readings.span));
  return (
    <table class="readings" classList={{ stale: props.stale }}>
      <thead>
        <tr>
          <th>
            <span class="visually-hidden">Reading</span>
          </th>
          <th class="front">Front</th>
          <th class="rear">Rear</th>
        </tr>
      </thead>
      <tbody>
        <For each={sensorOrder}>{(name) => <SensorRow readings={props.readings} name={name} />}</For>
        <Show when={props.readings.activity}>
          {(activity) => (
            <>
              <tr>
                <th scope="rowgroup" colspan={3} class="soft">
                  Rear over front
                  <Show when={cuts()}>{(words) => <span class="soft meaning">{words()}</span>}</Show>
                </th>
              </tr>
              <For each={Object.keys(activityWords) as ActivityReadingName[]}>
                {(name) => <ActivityRow readings={props.readings} activity={activity()} name={name} />}
              </For>
            </>
          )}
        </Show>
      </tbody>
    </table>
  );
};

const ActivityRow: Component<{
  readonly readings: SpanReadings;
  readonly activity: Activity;
  readonly name: ActivityReadingName;
}> = (props) => {
  const [isTold, tell] = createSignal(false);
  return (
    <>
      <tr>
        <th scope="row">
          {activityWords[props.name]}
          <Show when={activityMeanings[props.name]}>{(says) => <span class="soft meaning">{says()}</span>}</Show>
        </th>
        <td colspan={2}>
          <ReadingDoor
            name={`Rear over front, ${activityWords[props.name]}`}
            reading={asRead(props.name, props.activity[props.name])}
            evidence={props.readings.evidence[`activity.${props.name}`]}
            key={`activity.${props.name}`}
            isTold={isTold()}
            onTell={tell}
          />
        </td>
      </tr>
      <BecauseRow because={isTold() ? props.activity[props.name].because : undefined} />
    </>
  );
};

const sides = ["front", "rear"] as const;
type Side = (typeof sides)[number];

const SensorRow: Component<{ readonly readings: SpanReadings; readonly name: SensorReadingName }> = (props) => {
  const { desk } = useGround();
  const [told, tell] = createSignal<Side | null>(null);
  const because = () => {
    const side = told();
    return side ? props.readings.sensors[side]?.[props.name].because : undefined;
  };
  return (
    <>
      <tr>
        <th scope="row">
          {sensorWord(props.name, desk.limits())}
          <Show when={sensorMeaning(props.name, desk.limits())}>
            {(says) => <span class="soft meaning">{says()}</span>}
          </Show>
        </th>
        <For each={sides}>
          {(side) => (
            <SensorCell
              readings={props.readings}
              side={side}
              name={props.name}
              isTold={told() === side}
              onTell={(isTold) => tell(isTold ? side : null)}
            />
          )}
        </For>
      </tr>
      <BecauseRow because={because()} />
    </>
  );
};

const SensorCell: Component<{
  readonly readings: SpanReadings;
  readonly side: Side;
  readonly name: SensorReadingName;
  readonly isTold: boolean;
  readonly onTell: (isTold: boolean) => void;
}> = (props) => {
  const { desk } = useGround();
  const sensor = (): Sensor | null => props.readings.sensors[props.side];
  const key = (): EvidenceKey => `${props.side}.${props.name}`;
  return (
    <td>
      <Show when={sensor()} fallback={<span class="reading unknown soft">not measured</span>}>
        {(read) => (
          <ReadingDoor
            name={`${props.side === "front" ? "Front" : "Rear"}, ${sensorWord(props.name, desk.limits())}`}
            reading={read()[props.name]}
            evidence={props.readings.evidence[key()]}
            key={key()}
            isTold={props.isTold}
            onTell={props.onTell}
          />
        )}
      </Show>
    </td>
  );
};
