// Snappy within bounds: damaged bytes end in an error, never in a loop. Source: format_description.txt of google/snappy.

/**
 * @param size  bytes that must come out.
 * @throws RangeError where the bytes are no sound Snappy block of that size.
 */
export function unsnappy(input: Uint8Array, size: number): Uint8Array {
  const out = new Uint8Array(size);
  let at = 0;
  while (at < input.length && input[at++]! >= 128); // the length, which is known
  let end = 0;
  while (at < input.length) {
    const element = elementAt(input, at);
    const from = element.offset === 0 ? element.next : end - element.offset;
    if (from < 0 || end + element.length > size) throw new RangeError("Snappy block does not fit");
    if (element.offset === 0) {
      if (from + element.length > input.length) throw new RangeError("Snappy literal is cut");
      out.set(input.subarray(from, from + element.length), end);
    } else for (let i = 0; i < element.length; i++) out[end + i] = out[from + i]!; // may overlap itself
    end += element.length;
    at = element.next + (element.offset === 0 ? element.length : 0);
  }
  if (end !== size) throw new RangeError("Snappy block is cut");
  return out;
}

interface Element {
  readonly length: number;
  /** Back from where writing stands; 0 for a literal. */
  readonly offset: number;
  readonly next: number;
}

function elementAt(input: Uint8Array, at: number): Element {
  const mark = input[at]!;
  const [kind, high] = [mark & 3, mark >> 2];
  if (kind === 0) {
    const extra = Math.max(0, high - 59);
    const length = (extra === 0 ? high : wholeAt(input, at + 1, extra)) + 1;
    return { length, offset: 0, next: at + 1 + extra };
  }
  const bytes = [0, 1, 2, 4][kind]!;
  const offset = kind === 1 ? ((mark >> 5) << 8) + wholeAt(input, at + 1, 1) : wholeAt(input, at + 1, bytes);
  if (offset === 0) throw new RangeError("Snappy copy from nowhere");
  return { length: kind === 1 ? (high & 7) + 4 : high + 1, offset, next: at + 1 + bytes };
}

function wholeAt(input: Uint8Array, at: number, bytes: number): number {
  if (at + bytes > input.length) throw new RangeError("Snappy element is cut");
  let value = 0;
  for (let i = bytes - 1; i >= 0; i--) value = value * 256 + input[at + i]!;
  return value;
}
