// Replies of the engine computer put together from lines of hex: bare, with a header of an older bus, or as CAN frames of one
// or several parts (ISO 15765-2: 0L single, 1LLL first, 2n consecutive, 3x flow control; from memory).

import { type HexLine, hexLines, hexText } from "./hex-lines.ts";

/** How the car speaks; "unknown" where the text does not show it. */
export type Bus = "can" | "older" | "unknown";

/** One whole reply, from its service byte on. */
export interface Reply {
  readonly bytes: readonly number[];
  readonly bus: Bus;
  /** Who answered, as the frame names it; null where it does not. */
  readonly from: string | null;
  /** Where it begins in the text, from 1. */
  readonly line: number;
}

/** What was left out of a text, and why. */
export interface Unread {
  readonly line: number;
  readonly says: string;
}

export interface Replies {
  readonly replies: readonly Reply[];
  readonly unread: readonly Unread[];
}

/**
 * @param services  first bytes of the replies that are wanted, such as 0x43.
 * @returns all such replies, in order; what looked like hex and was none of them stands in `unread`. Never throws.
 */
export function repliesIn(text: string, services: readonly number[]): Replies {
  const replies: Reply[] = [];
  const unread: Unread[] = [];
  const open = new Map<string, Parts>();
  for (const line of joined(hexLines(text), unread)) {
    const one = partOf(line, services, open);
    if (one === "taken") continue;
    if (typeof one === "string") unread.push({ line: line.line, says: one });
    else if (services.includes(one.bytes[0]!)) replies.push(one);
    else if (isRequest(one, services)) continue;
    else unread.push({ line: line.line, says: otherThan(one.bytes, services) });
  }
  for (const parts of open.values()) unread.push({ line: parts.line, says: missingPart(parts) });
  return { replies: replies.sort((a, b) => a.line - b.line), unread };
}

/**
 * Lines numbered from 0 as the one reply they are; the others as they stand. A number left out is said. Two modules that
 * answer at once may have their lines in one another: what was joined before a line that fits nowhere, or was begun before
 * the one above it had ended, may hold parts of another's, and is no reply.
 */
function joined(lines: readonly HexLine[], unread: Unread[]): HexLine[] {
  const out: HexLine[] = [];
  const tangled = new Set<number>();
  let [open, parts] = [-1, 0];
  for (const line of lines) {
    const first = parts > 0 ? out[open]! : null;
    if (first && line.part === parts % 16) {
      out[open] = { ...first, bytes: [...first.bytes, ...line.bytes].slice(0, first.length ?? undefined) };
      parts++;
    } else if (line.part !== null && line.part > 0) {
      unread.push({
        line: line.line,
        says: `Part ${line.part} follows no part ${line.part - 1}. Copy all lines of the reply.`,
      });
      if (open >= 0) tangled.add(open);
      parts = 0;
    } else {
      const isCutShort = first !== null && (parts === 1 || first.bytes.length < (first.length ?? 0));
      if (isCutShort && line.part === 0) tangled.add(open).add(out.length);
      out.push(line);
      parts = line.part === 0 ? 1 : 0;
      if (line.part === 0) open = out.length - 1;
    }
  }
  for (const k of tangled) unread.push({ line: out[k]!.line, says: notOne });
  return out.filter((_, k) => !tangled.has(k));
}

const notOne =
  "The numbered lines may be of two replies, or one is missing. Copy all lines, each with the identifier of its module.";

/** What was asked, as it stands in a log before its answer: a service that is wanted, and its items (up to six on CAN). */
const isRequest = ({ bytes, bus }: Reply, services: readonly number[]): boolean =>
  services.includes(bytes[0]! + 0x40) && bytes.length <= (bus === "can" ? 7 : 3);

interface Parts {
  readonly line: number;
  readonly length: number;
  readonly from: string | null;
  readonly bytes: number[];
  /** Begun before another without a name had ended: its parts may be the other's. */
  readonly isTangled: boolean;
  next: number;
}

type Taken = Reply | "taken" | (string & {});

function partOf({ line, from, bytes, part }: HexLine, services: readonly number[], open: Map<string, Parts>): Taken {
  const [first = 0, second = 0] = bytes;
  if (part !== null) return { bytes, bus: "can", from, line };
  const framed = from !== null || looksFramed(bytes, services, open.has(""));
  if (!framed) return bare({ line, bytes }, services);
  const key = from ?? "";
  if (first >> 4 === 0) return { bytes: bytes.slice(1, 1 + (first & 15)), bus: "can", from, line };
  if (first >> 4 === 1) {
    const [before, length] = [open.get(key), ((first & 15) << 8) | second];
    const isTangled = before !== undefined && from === null;
    open.set(key, { line, length, from, bytes: [...bytes.slice(2)], isTangled, next: 1 });
    return before ? `${missingPart(before)} Another reply begins here.` : "taken";
  }
  if (first >> 4 === 3) return "taken";
  return continued(open, key, bytes);
}

function continued(open: Map<string, Parts>, key: string, bytes: readonly number[]): Taken {
  const parts = open.get(key);
  const first = bytes[0]!;
  if (!parts || first >> 4 !== 2) return `Not understood: ${hexText(bytes)}. The frame before it is missing.`;
  if ((first & 15) !== parts.next % 16) {
    open.delete(key);
    return missingPart(parts);
  }
  parts.bytes.push(...bytes.slice(1));
  parts.next++;
  if (parts.bytes.length < parts.length) return "taken";
  open.delete(key);
  if (parts.isTangled) return "The frames may be of two replies. Copy each with the identifier of its module.";
  return { bytes: parts.bytes.slice(0, parts.length), bus: "can", from: parts.from, line: parts.line };
}

/** Frames without their identifier: "06 43 …", "10 0E 43 …", and "21 …" where one has begun. */
function looksFramed(bytes: readonly number[], services: readonly number[], hasBegun: boolean): boolean {
  const [first = 0, second = 0, third = 0] = bytes;
  if (services.includes(first)) return false;
  if (hasBegun && first >> 4 === 2) return true;
  if (first >= 1 && first <= 7 && bytes.length > first) return services.includes(second);
  return first >> 4 === 1 && services.includes(third);
}

/** An older bus writes three header bytes before and a check byte behind (ISO 9141-2, ISO 14230, SAE J1850; from memory). */
function bare({ line, bytes }: Pick<HexLine, "line" | "bytes">, services: readonly number[]): Reply {
  const isHeaded = !services.includes(bytes[0]!) && bytes.length > 4 && [...services, refusal].includes(bytes[3]!);
  return isHeaded
    ? { bytes: bytes.slice(3, -1), bus: "older", from: null, line }
    : { bytes, bus: "unknown", from: null, line };
}

/** Begins an answer that declines what was asked. */
const refusal = 0x7f;

function otherThan(bytes: readonly number[], services: readonly number[]): string {
  const wanted = services.map((byte) => hexText([byte])).join(", ");
  return bytes[0] === refusal
    ? `The module refused: ${hexText(bytes)}.`
    : `Not understood: ${hexText(bytes)}. A reply begins with ${wanted} here.`;
}

const missingPart = ({ length, bytes }: Parts): string =>
  `A part is missing: ${bytes.length} of ${length} bytes are there. Copy all frames of the reply.`;
