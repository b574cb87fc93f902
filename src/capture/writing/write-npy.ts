// Channels with one time base as a NumPy array, one field per column. Source: NEP 1, format 3.0.

import { ProblemError } from "../../problem.ts";
import { timeAt } from "../../signal/series/series.ts";
import type { Channel } from "../model/capture.ts";
import { groupByTime, headerOf, type TimeGroup, type WriteSpan } from "./write-csv.ts";

/**
 * Bytes of a structured array with the fields "Time [s]" and one per channel, float64.
 *
 * @throws ProblemError "not-possible-here" where the channels have different time bases.
 */
export function writeNpy(channels: readonly Channel[], span: WriteSpan | null): Uint8Array<ArrayBuffer> {
  const [group, ...others] = groupByTime(channels, span);
  if (!group || others.length > 0) throw differentTimes();
  const header = headerFor(group);
  const rows = group.to - group.from;
  const width = 8 * (1 + group.channels.length);
  const out = new Uint8Array(header.length + rows * width);
  out.set(header);
  const view = new DataView(out.buffer, header.length);
  for (let r = 0; r < rows; r++) {
    const i = group.from + r;
    view.setFloat64(r * width, timeAt(group.time, i), true);
    group.channels.forEach(({ series }, c) => {
      view.setFloat64(r * width + 8 * (c + 1), series.samples[i]!, true);
    });
  }
  return out;
}

function headerFor({ channels, from, to }: TimeGroup): Uint8Array {
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
