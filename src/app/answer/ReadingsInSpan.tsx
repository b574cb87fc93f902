// The readings of the visible window or the chosen span, front and rear side by side.

import { type Component, For, Show } from "solid-js";
import type { EvidenceKey, SpanReadings } from "../../../workers/protocol.ts";
import type { ActivityReadingName, Sensor, SensorReadingName } from "../../exhaust/terms/analysis.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { activityWords, sensorOrder, sensorWord } from "../words.ts";
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
    </section>
  );
};

const ReadingsTable: Component<{ readonly readings: SpanReadings; readonly stale: boolean }> = (props) => {
  const { desk } = useGround();
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
        <For each={sensorOrder}>
          {(name) => (
            <tr>
              <th scope="row">{sensorWord(name, desk.limits())}</th>
              <SensorCell readings={props.readings} side="front" name={name} />
              <SensorCell readings={props.readings} side="rear" name={name} />
            </tr>
          )}
        </For>
        <Show when={props.readings.activity}>
          {(activity) => (
            <>
              <tr>
                <th scope="rowgroup" colspan={3} class="soft">
                  Rear over front
                </th>
              </tr>
              <For each={Object.keys(activityWords) as ActivityReadingName[]}>
                {(name) => (
                  <tr>
                    <th scope="row">{activityWords[name]}</th>
                    <td colspan={2}>
                      <ReadingDoor
                        name={`Rear over front, ${activityWords[name]}`}
                        reading={activity()[name]}
                        evidence={props.readings.evidence[`activity.${name}`]}
                        key={`activity.${name}`}
                      />
                    </td>
                  </tr>
                )}
              </For>
            </>
          )}
        </Show>
      </tbody>
    </table>
  );
};

const SensorCell: Component<{
  readonly readings: SpanReadings;
  readonly side: "front" | "rear";
  readonly name: SensorReadingName;
}> = (props) => {
  const { desk } = useGround();
  const sensor = (): Sensor | null => props.readings.sensors[props.side];
  const key = (): EvidenceKey => `${props.side}.${props.name}`;
  return (
    <td>
      <Show when={sensor()} fallback={<span class="reading unknown soft">not recorded</span>}>
        {(read) => (
          <ReadingDoor
            name={`${props.side === "front" ? "Front" : "Rear"}, ${sensorWord(props.name, desk.limits())}`}
            reading={read()[props.name]}
            evidence={props.readings.evidence[key()]}
            key={key()}
          />
        )}
      </Show>
    </td>
  );
};
