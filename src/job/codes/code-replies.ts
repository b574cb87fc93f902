// Codes out of raw replies: $43 stored, $47 pending, $4A permanent. On CAN a count stands before them, on older buses none does,
// and unused places are filled with zeros (SAE J1979; the count from memory).

import { hexText } from "../replies/hex-lines.ts";
import { type Bus, type Reply, repliesIn, type Unread } from "../replies/replies.ts";
import { type CodeName, type CodeState, codeOfBytes, type FaultCode } from "./code.ts";
import { joinCodes } from "./code-text.ts";

const states: Readonly<Record<number, CodeState>> = { 67: "stored", 71: "pending", 74: "permanent" };
const services = Object.keys(states).map(Number);

export interface CodeReplies {
  readonly codes: readonly FaultCode[];
  /** Lists that were answered, those without a code among them. */
  readonly answered: readonly CodeState[];
  readonly unread: readonly Unread[];
}

/**
 * @param bus  how the car speaks, where the text alone leaves it open: the same bytes may then be read in two ways, and none
 *   is chosen.
 */
export function codesInReplies(text: string, bus: Bus = "unknown"): CodeReplies {
  const { replies, unread } = repliesIn(text, services);
  const problems: Unread[] = [...unread];
  let codes: FaultCode[] = [];
  const answered = new Set<CodeState>();
  for (const reply of replies) {
    const state = states[reply.bytes[0]!]!;
    const read = codesOf(reply, reply.bus === "unknown" ? bus : reply.bus);
    if (typeof read === "string") {
      problems.push({ line: reply.line, says: read });
      continue;
    }
    answered.add(state);
    codes = joinCodes(
      codes,
      read.map((code) => ({ code, states: [state] })),
    );
  }
  return { codes, answered: [...answered], unread: problems };
}

/** True where a text holds such a reply at all. */
export const holdsCodeReplies = (text: string): boolean => repliesIn(text, services).replies.length > 0;

function codesOf({ bytes }: Reply, bus: Bus): CodeName[] | string {
  const body = bytes.slice(1);
  const [counted, plain] = [withCount(body), pairs(body)];
  if (bus === "can") return counted ?? `The count does not fit: ${hexText(bytes)}. Copy the whole reply.`;
  if (bus === "older") return plain ?? `Half a code is left over: ${hexText(bytes)}. Copy the whole reply.`;
  if (counted && plain && counted.join() !== plain.join()) {
    const [onCan, older] = [listed(counted), listed(plain)];
    return `Can be read in two ways: ${onCan} on CAN, ${older} on an older bus. Say which bus the car has.`;
  }
  return counted ?? plain ?? `Not a list of codes: ${hexText(bytes)}. Copy the whole reply.`;
}

const listed = (codes: readonly CodeName[]): string => (codes.length > 0 ? codes.join(", ") : "no code");

/** Null where count and length disagree; what is left of a frame may only be filling. */
function withCount(body: readonly number[]): CodeName[] | null {
  const [count = -1, ...rest] = body;
  if (count < 0 || rest.length < 2 * count) return null;
  const filling = rest.slice(2 * count);
  if (filling.some((byte) => ![0x00, 0xaa, 0x55, 0xcc, 0xff].includes(byte))) return null;
  return pairs(rest.slice(0, 2 * count));
}

/** Null where the length is odd. */
function pairs(bytes: readonly number[]): CodeName[] | null {
  if (bytes.length % 2 === 1) return null;
  const codes: CodeName[] = [];
  for (let i = 0; i < bytes.length; i += 2) {
    const code = codeOfBytes(bytes[i]!, bytes[i + 1]!);
    if (code) codes.push(code);
  }
  return codes;
}
