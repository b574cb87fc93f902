// A channel in the browser's storage as a reel.

import type { Correction } from "../../src/capture/meaning/corrections.ts";
import type { Seconds } from "../../src/signal/numbers/units.ts";
import { indexAt, type PagedSamples, type Reel, type Samples } from "../../src/signal/series/series.ts";
import { corrected } from "../body/body.ts";
import type { Bounds } from "../drawing/paged-trace.ts";
import type { KeptChannel } from "../store/layout.ts";
import type { StoredColumns } from "./stored-columns.ts";

/** Samples of a reel that are in memory at once. */
export const partLength = 1 << 19;

export interface Stored {
  readonly channel: KeptChannel;
  readonly columns: StoredColumns;
  readonly bounds: Pick<Bounds, "times" | "size">;
}

/** @param onRead  told how many samples are wanted each time. */
export function storedReel(
  { channel, columns, bounds: { times, size } }: Stored,
  correction: Correction,
  onRead: (count: number) => void,
): Reel {
  const { time, samples, facts, longestStep } = channel;
  const length = facts.samples;
  const readSamples = lastKept((from, to) => corrected(columns.read(samples, from, to), correction));
  const read = (from: number, to: number) => {
    onRead(to - from);
    return readSamples(from, to);
  };
  const paged: PagedSamples = { length, part: partLength, read };
  if (time.kind === "even") return { time, samples: paged };
  const readStamps = lastKept((from, to) => columns.read(time.stamps, from, to) as Float64Array);
  const place = (t: Seconds) => {
    const from = Math.max(0, indexAt(times, t) - 1) * size;
    const stamps = readStamps(from, Math.min(length, from + size + 1));
    return from + indexAt({ kind: "stamped", stamps }, t);
  };
  const gapAbove = longestStep ?? Number.POSITIVE_INFINITY;
  const doubt = time.doubt ? { doubt: time.doubt } : {};
  return { time: { kind: "paged", count: length, read: readStamps, place, gapAbove, ...doubt }, samples: paged };
}

/** The last long part that was read is kept: what is looked at closely lies mostly within it. */
function lastKept<S extends Samples>(read: (from: number, to: number) => S) {
  let [at, last] = [0, null as S | null];
  return (from: number, to: number): S => {
    if (last && from >= at && to <= at + last.length) return last.subarray(from - at, to - at) as S;
    const found = read(from, to);
    if (!last || found.length >= last.length / 2) [at, last] = [from, found];
    return found;
  };
}
