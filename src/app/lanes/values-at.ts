// What a layer's own lines hold at the instants that are read out of the recording.

import { type Accessor, createMemo } from "solid-js";
import type { ValueAt } from "../../../workers/protocol.ts";
import type { CursorValue, Readout } from "../../plot/stage/types.ts";
import type { Seconds } from "../../signal/numbers/units.ts";
import { createLatest } from "../core/latest.ts";

interface Asking<Asked> {
  /** Of the own channels: they say at which instants is read. */
  readonly readouts: Accessor<readonly Readout[]>;
  /** What is asked for; null where the layer has nothing to tell. */
  readonly ask: () => Asked | null;
  valuesAt(asked: Asked, time: Seconds): Promise<readonly ValueAt[]>;
  /** The line on the lanes that a channel is drawn as. */
  lineOf(channelId: string): string;
}

/** @returns values by instant, s of the recording; none before they have come. */
export function createValuesAt<Asked>({ readouts, ask, valuesAt, lineOf }: Asking<Asked>) {
  const asked = createMemo(() => {
    const [what, times] = [ask(), readouts().map(({ time }) => time)];
    return what && times.length > 0 ? { what, times } : null;
  });
  const latest = createLatest(asked, ({ what, times }) =>
    Promise.all(times.map(async (time) => ({ time, values: await valuesAt(what, time) }))),
  );
  return (time: Seconds): readonly CursorValue[] =>
    (latest.value()?.find((one) => one.time === time)?.values ?? []).map((value) => ({
      ...value,
      channelId: lineOf(value.channelId),
    }));
}
