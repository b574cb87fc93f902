// What the reference's lift-offs usually do, laid at each lift-off of the suspect: median and 5 to 95 %.

import { type Accessor, createMemo } from "solid-js";
import type { CaptureService } from "../../../workers/protocol.ts";
import type { ComparedLiftOff } from "../../exhaust/comparison.ts";
import type { Envelope } from "../../plot/types.ts";
import { createLatest } from "../state/latest.ts";
import { bandOf } from "./difference-line.ts";
import type { Reference } from "./reference.ts";

/** About the front's fall, s; instants of the band, and pixels asked for. */
const from = -1;
const to = 4;
const count = 300;
const width = 1200;

export interface BandRule {
  /** Null: no band is wished. */
  readonly reference: Accessor<Reference | null>;
  /** The suspect's lift-offs. */
  readonly at: Accessor<readonly ComparedLiftOff[]>;
}

/** Empty with fewer than two lift-offs in the reference. */
export function createBand(service: CaptureService, { reference, at }: BandRule): Accessor<readonly Envelope[]> {
  const bands = createLatest(reference, async ({ summary, comparable }) => {
    const falls = comparable.liftOffs.flatMap(({ frontFall }) => frontFall.value ?? []);
    const ofRole = (role: string) => summary.channels.find((c) => c.role === role && c.bank === comparable.bank);
    const sensors = [
      ["front", ofRole("front-o2")],
      ["rear", ofRole("rear-o2")],
    ] as const;
    return Promise.all(
      sensors.flatMap(([look, channel]) => (channel && falls.length > 1 ? [bandAt(look, channel.id)] : [])),
    );

    async function bandAt(look: Envelope["look"], channelId: string): Promise<Envelope> {
      const lines = await Promise.all(
        falls.map(async (fall) => {
          const span = { from: fall + from, to: fall + to };
          const [line] = await service.window({ captureId: summary.id, channelIds: [channelId], span, width });
          return { ...line!, times: line!.times.map((time) => time - fall) };
        }),
      );
      return { look, ...bandOf(lines, [from, to], count) };
    }
  });
  return createMemo(() =>
    (bands.value() ?? []).flatMap((band) =>
      at().flatMap(({ frontFall: { value } }) =>
        value === null ? [] : [{ ...band, times: band.times.map((time) => time + value) }],
      ),
    ),
  );
}
