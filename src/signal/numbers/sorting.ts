// Numbers in rising order, by their bits.

/** Below this the sort that comes with the language is quicker. */
const few = 2048;
const digit = 11;
const classes = 1 << digit;
/** Where each digit lies: in the lower or the upper half of a number, and how far up. The topmost has ten bits. */
const digits = [0, 1].flatMap((half) => [0, digit, 2 * digit].map((shift) => ({ half, shift })));

/** Room that every sort writes over; as large as the largest so far, up to what noise and percentiles ask for. */
let room: Uint32Array = new Uint32Array(0);
const counts = digits.map(() => new Uint32Array(classes));

/**
 * Puts numbers in rising order, in place, as `Float64Array.prototype.sort` does: -0 before 0.
 *
 * @param values  no NaN. @returns the same array.
 *
 * Radix sort over digits of 11 bits (H. H. Seward, 1954; Knuth, TAOCP 3, 5.2.5), digits that are alike in all of them left
 * out: numbers that were single precision once have nothing in their lowest ones. Three to five times as quick as comparing
 * from some thousand on.
 */
export function inOrder(values: Float64Array): Float64Array {
  const n = values.length;
  if (n < few) return values.sort();
  if (room.length < 2 * n) room = new Uint32Array(2 * n);
  let from: Uint32Array = new Uint32Array(values.buffer, values.byteOffset, 2 * n);
  let to: Uint32Array = room.subarray(0, 2 * n);
  const home = from;
  turnSigns(from, 0x80000000, 0xffffffff);
  countDigits(from);
  for (let d = 0; d < digits.length; d++) {
    if (!spread(from, to, d)) continue;
    [from, to] = [to, from];
  }
  if (from !== home) home.set(from);
  turnSigns(home, 0xffffffff, 0x80000000);
  return values;
}

/** So that bits rise with the numbers: of the one sign the first bit is turned, of the other all of them. */
function turnSigns(words: Uint32Array, ofClear: number, ofSet: number): void {
  for (let i = 1; i < words.length; i += 2) {
    const mask = words[i]! >>> 31 === 0 ? ofClear : ofSet;
    words[i] = (words[i]! ^ mask) >>> 0;
    if (mask === 0xffffffff) words[i - 1] = ~words[i - 1]! >>> 0;
  }
}

/** How often each digit has each value, of all digits at once: putting in order by one changes nothing for the others. */
function countDigits(words: Uint32Array): void {
  for (const own of counts) own.fill(0);
  const [a, b, c, d, e, f] = counts as [Uint32Array, Uint32Array, Uint32Array, Uint32Array, Uint32Array, Uint32Array];
  const mask = classes - 1;
  for (let i = 0; i < words.length; i += 2) {
    const low = words[i]!;
    const high = words[i + 1]!;
    a[low & mask]!++;
    b[(low >>> digit) & mask]!++;
    c[low >>> (2 * digit)]!++;
    d[high & mask]!++;
    e[(high >>> digit) & mask]!++;
    f[high >>> (2 * digit)]!++;
  }
}

/** One pass, from one room to the other; false where all have the same digit, and nothing was moved. */
function spread(from: Uint32Array, to: Uint32Array, d: number): boolean {
  const { half, shift } = digits[d]!;
  const places = counts[d]!;
  const total = from.length / 2;
  let place = 0;
  for (let c = 0; c < classes; c++) {
    const count = places[c]!;
    if (count === total) return false;
    places[c] = place;
    place += count;
  }
  for (let i = 0; i < from.length; i += 2) {
    const at = 2 * places[(from[i + half]! >>> shift) & (classes - 1)]!++;
    to[at] = from[i]!;
    to[at + 1] = from[i + 1]!;
  }
  return true;
}
