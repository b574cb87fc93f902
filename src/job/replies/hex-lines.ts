// Hex as a person or a log writes it: one line of text, turned into the bytes on it and the CAN identifier before them.

/** What stands on one line. `from` is the identifier of a CAN frame, upper case; null where the line shows none. */
export interface HexLine {
  /** From 1. */
  readonly line: number;
  readonly from: string | null;
  readonly bytes: readonly number[];
  /** Which part of a reply in numbered lines ("0: 43 06 …", "1: …") this is; null where no number stands before it. */
  readonly part: number | null;
  /** How many bytes the reply has, where the line above a part 0 holds nothing but that ("00E"). */
  readonly length: number | null;
}

/** Lines without any byte are left out: they are words. */
export function hexLines(text: string): HexLine[] {
  const lines = text.split(/\r\n|\r|\n/);
  return lines.flatMap((one, i) =>
    labelled(one).flatMap((piece) => {
      const { from, rest } = identifierOf(tokensOf(piece));
      const bytes = rest.flatMap(bytesOf);
      if (bytes.length === 0) return [];
      const number = /^\s*([0-9a-f]):\s*[0-9a-f]{2}/i.exec(piece);
      const above = /^\s*([0-9a-f]{3})\s*$/i.exec(lines[i - 1] ?? "");
      const [part, length] = [number, above].map((match) => (match ? Number.parseInt(match[1]!, 16) : null));
      return [{ line: i + 1, from, bytes, part: part!, length: length! }];
    }),
  );
}

/** "03: 43 01 04 20, 07: 47 00" are two replies: a line is cut before each label that a comma, a semicolon or a bar sets apart. */
const labelled = (line: string): string[] => line.split(/[,;|](?=[^,;|:=>]*[:=>])/);

/**
 * Everything up to the last label or stamp is set aside; "0x43", "$43", "43h" and "43," are all 43, also within brackets. Four
 * bytes and more may be tied by dashes or colons (three may be a clock), and "7E8#" is an identifier.
 */
function tokensOf(line: string): string[] {
  const apart = line
    .replace(/\b(?:[0-9a-f]{2}[-:]){3,}[0-9a-f]{2}\b/gi, (run) => run.replace(/[-:]/g, " "))
    .replace(/\b([0-9a-f]{3}|[0-9a-f]{8})#/i, "$1 ");
  const said = apart.replace(/[\])}>\s]+$/, "").replace(/^.*[:=>|\]]/, "");
  return said
    .split(/[\s,;[({]+/)
    .map((token) => token.replace(/^(0x|\$)/i, "").replace(/^([0-9a-f]{2})h$/i, "$1"))
    .filter((token) => /^[0-9a-f]{2,}$/i.test(token));
}

/** Identifiers of answers on CAN by ISO 15765-4: 7E8 … 7EF of 11 bits, 18DAF1xx of 29. From memory. */
function identifierOf(tokens: readonly string[]): { from: string | null; rest: readonly string[] } {
  const [first = "", ...others] = tokens;
  const short = /^(7[0-9a-f]{2})((?:[0-9a-f]{2})*)$/i.exec(first);
  if (short && first.length % 2 === 1) return { from: short[1]!.toUpperCase(), rest: named(short[2]!, others) };
  const long = /^(18da[0-9a-f]{4})((?:[0-9a-f]{2})*)$/i.exec(first);
  if (long) return { from: long[1]!.toUpperCase(), rest: named(long[2]!, others) };
  if (tokens.length > 4 && /^18da$/i.test(tokens.slice(0, 2).join(""))) {
    return { from: tokens.slice(0, 4).join("").toUpperCase(), rest: tokens.slice(4) };
  }
  return { from: null, rest: tokens };
}

const named = (behind: string, others: readonly string[]) => (behind === "" ? others : [behind, ...others]);

/** A token of odd length is no row of bytes. */
function bytesOf(token: string): number[] {
  if (token.length % 2 === 1) return [];
  return (token.match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
}

/** "43 02 01": as bytes are written for people. */
export const hexText = (bytes: readonly number[]): string =>
  bytes.map((byte) => byte.toString(16).toUpperCase().padStart(2, "0")).join(" ");
