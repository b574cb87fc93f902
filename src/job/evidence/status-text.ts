// What a text tells of distances, times and readiness: raw replies, or words as people write them.

import { parametersInReplies } from "../parameters/parameter-replies.ts";
import { parametersInText } from "../parameters/parameter-text.ts";
import { type ReadinessText, readinessInText, withTold } from "../parameters/readiness-text.ts";
import type { Evidence } from "./evidence.ts";

interface StatusText {
  /** Null where nothing was understood. */
  readonly part: Pick<Evidence, "status"> | Pick<Evidence, "status" | "readiness" | "readinessOf"> | null;
  readonly unread: readonly { readonly line: number; readonly says: string }[];
}

/** What a text adds to the evidence that is there, and what of it was not understood. Bytes are looked for first. */
export function statusInText(text: string, evidence: Evidence): StatusText {
  const { status } = evidence;
  const read = parametersInReplies(text, 0x41);
  const [thisDrive, sinceClear] = [read.monitorBytes[0x41], read.monitorBytes[0x01]];
  const bytes = sinceClear ?? thisDrive;
  if (bytes || Object.keys(read.values).length > 0) {
    const told = bytes ? ({ readiness: bytes, readinessOf: sinceClear ? "since-clear" : "this-drive" } as const) : {};
    return { part: { status: { ...status, ...read.values }, ...told }, unread: read.unread };
  }
  const readiness = readinessInText(text);
  const { values, unread: left } = parametersInText(readiness.rest);
  const { told, says: kept } = typedOver(evidence, text, readiness.tests);
  const unread = [...readiness.unread, ...left, ...kept].sort((a, b) => a.line - b.line);
  if (Object.keys(values).length === 0 && !told) {
    const says = read.isAnswered ? read.unread : unread;
    return { part: null, unread: says.length > 0 ? says : [{ line: 1, says: nothingTold }] };
  }
  return { part: { status: { ...status, ...values }, ...told }, unread };
}

const nothingTold = "Nothing was understood. Write “distance since clear 812 km”, or “catalyst: not complete”.";
const isKept = "What was typed of readiness is not taken over: bytes that were read from the car are kept.";

/** Words are added to words; bytes that were read from the car stay as they are. */
function typedOver({ readiness, readinessOf }: Evidence, text: string, tests: ReadinessText["tests"]) {
  if (tests.size === 0) return { told: null, says: [] };
  const isRead = readiness.length > 0 && readinessOf !== "as-typed";
  const next = withTold(readiness, tests);
  if (!isRead) return { told: { readiness: next, readinessOf: "as-typed" } as const, says: [] };
  const isSame = next.every((byte, i) => byte === readiness[i]);
  const line = 1 + text.split(/\r\n|\r|\n/).findIndex((one) => readinessInText(one).tests.size > 0);
  return { told: null, says: isSame ? [] : [{ line, says: isKept }] };
}
