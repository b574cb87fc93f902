// Which bytes a text is written in.

import { codePageOf } from "./code-page.ts";
import type { TextBytes } from "./encodings.ts";

/** Tells the encoding from a mark, from the zero bytes of UTF-16, from whether the bytes are valid UTF-8, or by the names in it. */
export function encodingOf(head: Uint8Array): TextBytes {
  const [a, b, c] = head;
  if (a === 0xef && b === 0xbb && c === 0xbf) return { encoding: "utf-8", skip: 3 };
  if (a === 0xff && b === 0xfe) return { encoding: "utf-16le", skip: 2 };
  if (a === 0xfe && b === 0xff) return { encoding: "utf-16be", skip: 2 };
  const [even, odd] = zeroShare(head);
  if (odd > 0.3 && even < 0.05) return { encoding: "utf-16le", skip: 0 };
  if (even > 0.3 && odd < 0.05) return { encoding: "utf-16be", skip: 0 };
  return { encoding: isUtf8(head) ? "utf-8" : codePageOf(head), skip: 0 };
}

/** Share of zero bytes at even and at odd places. */
export function zeroShare(head: Uint8Array): readonly [even: number, odd: number] {
  const length = Math.min(head.length, 4096);
  const zeros: [number, number] = [0, 0];
  for (let i = 0; i < length; i++) if (head[i] === 0) zeros[(i & 1) as 0 | 1]++;
  const half = Math.max(1, length / 2);
  return [zeros[0] / half, zeros[1] / half];
}

function isUtf8(head: Uint8Array): boolean {
  try {
    // Streaming, so that a character cut by the end of the head is no fault.
    new TextDecoder("utf-8", { fatal: true }).decode(head, { stream: true });
    return true;
  } catch {
    return false;
  }
}

/** Text of the first bytes, byte-order mark taken off, line ends made "\n". */
export function decodeHead(head: Uint8Array, { encoding, skip }: TextBytes): string {
  return oneLineEnd(new TextDecoder(encoding).decode(head.subarray(skip), { stream: true }));
}

/** CRLF and CR become LF. */
export function oneLineEnd(text: string): string {
  return text.includes("\r") ? text.replace(/\r\n?/g, "\n") : text;
}
