// Values out of raw replies of services $01 (41 PID data …) and $02 (42 PID frame data …), one or several in a reply.

import { codeOfBytes } from "../codes/code.ts";
import { hexText } from "../replies/hex-lines.ts";
import { repliesIn, type Unread } from "../replies/replies.ts";
import { type ParameterId, parametersOfPid } from "./parameters.ts";

export type ParameterValues = Readonly<Partial<Record<ParameterId, number>>>;

export interface ParameterReplies {
  readonly values: ParameterValues;
  /** The code that stored the frame, PID $02; null where none did or none was told. */
  readonly code: string | null;
  /** Bytes A to D of PID $01 and $41 by PID, for readiness. */
  readonly monitorBytes: Readonly<Record<number, readonly number[]>>;
  /** True where the text holds such a reply with an item, also one of which nothing could be read. */
  readonly isAnswered: boolean;
  readonly unread: readonly Unread[];
}

/** Lengths of items we do not use, so that what follows in the same reply is found. From memory. */
const otherLengths: Readonly<Record<number, number>> = {
  18: 1,
  19: 1,
  28: 1,
  29: 1,
  34: 2,
  35: 2,
  44: 1,
  45: 1,
  47: 1,
  50: 2,
  69: 1,
  70: 1,
  71: 1,
  72: 1,
  73: 1,
  74: 1,
  75: 1,
  76: 1,
  81: 1,
  90: 1,
  92: 1,
  ...Object.fromEntries([0x14, 0x15, 0x16, 0x17, 0x18, 0x19, 0x1a, 0x1b].map((pid) => [pid, 2])),
  ...Object.fromEntries([0x24, 0x25, 0x26, 0x27, 0x28, 0x29, 0x2a, 0x2b].map((pid) => [pid, 4])),
  ...Object.fromEntries([0x34, 0x35, 0x36, 0x37, 0x38, 0x39, 0x3a, 0x3b].map((pid) => [pid, 4])),
  ...Object.fromEntries([0x00, 0x20, 0x40, 0x60].map((pid) => [pid, 4])),
  62: 2,
  63: 2,
  79: 4,
  80: 4,
};

/** @param service  0x41 for what is now, 0x42 for a freeze frame. Never throws. */
export function parametersInReplies(text: string, service: 0x41 | 0x42): ParameterReplies {
  const { replies, unread } = repliesIn(text, [service]);
  const found: Found = { values: {}, code: null, monitorBytes: {}, frame: null };
  const problems: Unread[] = [...unread];
  for (const { bytes, line } of replies) {
    const trouble = takeAll(bytes.slice(1), service === 0x42, found);
    if (trouble) problems.push({ line, says: `${trouble} in ${hexText(bytes)}.` });
  }
  const { frame: _, ...told } = found;
  return { ...told, isAnswered: replies.some(({ bytes }) => bytes.length > 2), unread: problems };
}

interface Found {
  values: Partial<Record<ParameterId, number>>;
  code: string | null;
  monitorBytes: Record<number, readonly number[]>;
  /** Number of the freeze frame that is taken: that of the first item. */
  frame: number | null;
}

/** Takes items until the reply ends; a frame's filling of zeros at its end is no item. Answers what does not fit. */
function takeAll(body: readonly number[], isFrozen: boolean, into: Found): string | null {
  let at = 0;
  while (at < body.length) {
    const pid = body[at]!;
    const dataAt = at + (isFrozen ? 2 : 1);
    if (at > 0 && body.slice(at).every((one) => one === 0 || one === 0xaa || one === 0x55)) return null;
    const length = lengthOf(pid);
    if (length === null) return `Item ${hexText([pid])} is not known`;
    const data = body.slice(dataAt, dataAt + length);
    if (data.length < length) return `Item ${hexText([pid])} is cut short`;
    if (isFrozen) into.frame ??= body[at + 1]!;
    if (isFrozen && body[at + 1] !== into.frame) return `Item ${hexText([pid])} is of another frame than those above`;
    if (isFrozen && pid === 0x02 && data.every((one) => one === 0)) return "No freeze frame is stored, says item 02";
    take(pid, data, into);
    at = dataAt + length;
  }
  return null;
}

function lengthOf(pid: number): number | null {
  if (pid === 0x01 || pid === 0x41) return 4;
  if (pid === 0x02) return 2;
  return parametersOfPid(pid)[0]?.bytes ?? otherLengths[pid] ?? null;
}

function take(pid: number, data: readonly number[], into: Found): void {
  if (pid === 0x01 || pid === 0x41) into.monitorBytes[pid] = data;
  if (pid === 0x02) into.code = codeOfBytes(data[0]!, data[1]!);
  for (const { id, read } of parametersOfPid(pid)) into.values[id] = read(data);
}
