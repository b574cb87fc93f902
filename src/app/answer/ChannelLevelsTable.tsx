// Of every channel over the same span: mean, lowest, highest, and how many of its samples hold a value. Measured once it is opened.

import { type Component, createSignal, For, Show } from "solid-js";
import type { ChannelLevels, LevelName } from "../../exhaust/terms/analysis.ts";
import { channelInForce } from "../../job/edits/channels.ts";
import { formatReading } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { BecauseRow } from "./BecauseRow.tsx";
import { ReadingDoor } from "./ReadingDoor.tsx";

const columns = { mean: "Mean", minimum: "Lowest", maximum: "Highest" } as const satisfies Partial<
  Record<LevelName, string>
>;
type Column = keyof typeof columns;
const names = Object.keys(columns) as Column[];

export const ChannelLevelsTable: Component = () => {
  const { readings } = useGround();
  return (
    <details open={readings.hasLevels()} onToggle={(event) => readings.setLevels(event.currentTarget.open)}>
      <summary>Every channel: mean, lowest, highest</summary>
      <Show
        when={readings.inSpan()?.levels}
        fallback={
          <Show when={readings.isMeasuring()}>
            <p class="soft">Measuring …</p>
          </Show>
        }
      >
        {(levels) => (
          <table class="readings levels" classList={{ stale: readings.isMeasuring() }}>
            <thead>
              <tr>
                <For each={names}>{(name) => <th scope="col">{columns[name]}</th>}</For>
              </tr>
            </thead>
            <For each={levels()}>{(one) => <ChannelRows levels={one} />}</For>
          </table>
        )}
      </Show>
    </details>
  );
};

const ChannelRows: Component<{ readonly levels: ChannelLevels }> = (props) => {
  const { bench, summary, readings } = useGround();
  const [told, tell] = createSignal<Column | null>(null);
  const name = () => {
    const channel = summary()?.channels.find(({ id }) => id === props.levels.channelId);
    return channel ? channelInForce(bench.state(), channel).name : props.levels.channelId;
  };
  const because = () => {
    const column = told();
    return column === null ? undefined : props.levels[column].because;
  };
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" colspan={3}>
          {name()} <span class="soft">{heldText(props.levels)}</span>
        </th>
      </tr>
      <tr>
        <For each={names}>
          {(column) => {
            const key = () => `channel.${column}.${props.levels.channelId}` as const;
            return (
              <td>
                <ReadingDoor
                  name={`${name()}, ${columns[column]}`}
                  reading={props.levels[column]}
                  evidence={readings.inSpan()?.evidence[key()]}
                  key={key()}
                  isTold={told() === column}
                  onTell={(isTold) => tell(isTold ? column : null)}
                />
              </td>
            );
          }}
        </For>
      </tr>
      <BecauseRow because={because()} />
    </tbody>
  );
};

const heldText = ({ held }: ChannelLevels): string =>
  held.value === null ? "" : `${formatReading(held).value} of its samples`;
