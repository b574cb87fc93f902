// Channels with one time base as a NumPy array, one field per column. Source: NEP 1, format 3.0.

import { ProblemError } from "../../problem.ts";
import { groupByTime, headerOf, partOf, pieceRows, type TimeGroup, type Writable, type WriteSpan } from "./groups.ts";

/**
 * Bytes of a structured array with the fields "Time [s]" and one per channel, float64, in pieces, each read when it is wanted.
 *
 * @param onShare  told how much is written, before each piece.
 * @throws ProblemError "not-possible-here" where the channels have different time bases.
 */
export function* npyPieces(
  channels: readonly Writable[],
  span: WriteSpan | null,
  onShare: (share: number) => void = () => {},
): Generator<Uint8Array<ArrayBuffer>> {
  const [group, ...others] = groupByTime(channels, span);
  if (!group || others.length > 0) throw differentTimes();
  yield headerFor(group);
  const rows = group.to - group.from;
  const many = pieceRows(1 + channels.length);
  for (let start = 0; start < rows; start += many) {
    onShare(start / rows);
    yield rowsOf(group, start, start + many);
  }
}

function rowsOf(group: TimeGroup, first: number, end: number): Uint8Array<ArrayBuffer> {
  const { rows, stamp, samples } = partOf(group, first, end);
  const width = 8 * (1 + samples.length);
  const view = new DataView(new ArrayBuffer(rows * width));
  for (let r = 0; r < rows; r++) {
    view.setFloat64(r * width, stamp(r), true);
    for (const [c, all] of samples.entries()) view.setFloat64(r * width + 8 * (c + 1), all[r]!, true);
  }
  return new Uint8Array(view.buffer);
}

function headerFor({ channels, from, to }: TimeGroup): Uint8Array<ArrayBuffer> {
  const names = unique(["Time [s]", ...channels.map(headerOf)]);
  const fields = names.map((name) => `('${name.replace(/[\\']/g, "\\$&")}', '<f8')`).join(", ");
  const text = `{'descr': [${fields}], 'fortran_order': False, 'shape': (${to - from},), }`;
  const body = new TextEncoder().encode(text);
  const padded = Math.ceil((12 + body.length + 1) / 64) * 64;
  const out = new Uint8Array(padded).fill(0x20);
  out.set([0x93, 0x4e, 0x55, 0x4d, 0x50, 0x59, 3, 0]);
  new DataView(out.buffer).setUint32(8, padded - 12, true);
  out.set(body, 12);
  out[padded - 1] = 0x0a;
  return out;
}

/** Fields must differ. */
function unique(names: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return names.map((name) => {
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return times === 1 ? name : `${name} (${times})`;
  });
}

function differentTimes(): ProblemError {
  return new ProblemError({
    code: "not-possible-here",
    what: "These channels have different times, and one array holds only one.",
    remedy: "Write them as CSV, or choose channels that were sampled together.",
  });
}
