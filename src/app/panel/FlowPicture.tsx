// Rear activity against air flow: whether the catalyst holds at idle and lets go at cruise, at a glance.

import { type Component, For, Show } from "solid-js";
import { formatValue, readingInWords, showUnit } from "../../drawing/format.ts";
import type { FlowPoint, FlowPicture as Picture } from "../../exhaust/analysis.ts";
import { useWorkbench } from "../state/workbench.ts";
import { roleWords, stretchWords } from "../words.ts";

const [wide, high, left, bottom, top] = [336, 190, 40, 30, 10];

export const FlowPicture: Component = () => {
  const { readings } = useWorkbench();
  const picture = () => {
    const found = readings.whole()?.flowPicture;
    return found?.along && found.points.some((point) => point.amplitudeRatio.value !== null) ? found : null;
  };
  return (
    <Show when={picture()}>
      {(found) => (
        <section aria-label="Flow picture">
          <h2>Rear swing over front swing, along {roleWords[found().along!.role].toLowerCase()}</h2>
          <Chart picture={found()} />
          <Show when={found().says}>{(says) => <p class="why">{says()}</p>}</Show>
        </section>
      )}
    </Show>
  );
};

const Chart: Component<{ readonly picture: Picture }> = (props) => {
  const { shown } = useWorkbench();
  const points = () => props.picture.points.filter((point) => point.amplitudeRatio.value !== null);
  const most = () => Math.max(...points().map((point) => point.at)) * 1.15 || 1;
  const tallest = () => Math.max(1, ...points().map((point) => point.amplitudeRatio.high ?? 0)) * 1.05;
  const x = (at: number) => left + (at / most()) * (wide - left - 12);
  const y = (ratio: number) => top + (1 - ratio / tallest()) * (high - bottom - top);
  const name = (point: FlowPoint) =>
    `${stretchWords[point.kind]} at ${formatValue(point.at, props.picture.along!.unit)}: ${readingInWords(point.amplitudeRatio)}`;
  return (
    <div class="flow-plot">
      <svg viewBox={`0 0 ${wide} ${high}`} aria-hidden="true">
        <For each={[0, 0.5, 1]}>
          {(ratio) => (
            <>
              <path d={`M${left} ${y(ratio)}H${wide - 12}`} stroke="var(--grid)" />
              <text x={left - 8} y={y(ratio) + 4} text-anchor="end" font-size="13" fill="var(--soft)">
                {ratio}
              </text>
            </>
          )}
        </For>
        <text x={wide - 12} y={high - 4} text-anchor="end" font-size="13" fill="var(--soft)">
          {Math.round(most())} {showUnit(props.picture.along!.unit)}
        </text>
        <text x={left} y={high - 4} font-size="13" fill="var(--soft)">
          0
        </text>
        <For each={points()}>
          {(point) => (
            <>
              <path
                d={`M${x(point.at)} ${y(point.amplitudeRatio.low ?? point.amplitudeRatio.value!)}V${y(point.amplitudeRatio.high ?? point.amplitudeRatio.value!)}`}
                stroke="var(--rear)"
                stroke-width="2"
              />
              <circle cx={x(point.at)} cy={y(point.amplitudeRatio.value!)} r={5} class={`dot dot-${point.kind}`} />
            </>
          )}
        </For>
      </svg>
      <For each={points()}>
        {(point) => (
          <button
            type="button"
            class="flow-point"
            aria-label={name(point)}
            title={name(point)}
            style={{
              left: `${(100 * x(point.at)) / wide}%`,
              top: `${(100 * y(point.amplitudeRatio.value!)) / high}%`,
            }}
            onClick={() => shown.go(`flow-${point.from}`, point)}
          />
        )}
      </For>
    </div>
  );
};
