// Rows of plain numbers straight from bytes: no text is decoded. Whatever is not plain is left to the careful reader.

/** What the rows look like. Byte values. */
export interface RowShape {
  /** "," ";" tab "|", or a blank for runs of blanks and tabs. */
  readonly delimiter: number;
  readonly decimalMark: number;
  /** One entry a cell of a row: whether its number is wanted. Other cells are passed over, whatever they hold. */
  readonly wanted: readonly boolean[];
}

/** Takes `rows` values of each wanted column, in the order of the columns; the arrays are used again afterwards. */
export type TakeBlock = (block: readonly Float64Array[], rows: number) => void;

const blockRows = 4096;

/** Powers of ten that a double holds exactly. */
const exactPowers = Float64Array.from({ length: 23 }, (_, exponent) => Number(`1e${exponent}`));
/** Whole numbers below this are exact in a double. */
const exactWhole = 2 ** 53;

const lineFeed = 10;
const carriageReturn = 13;
const blank = 32;
const tab = 9;
const quote = 34;

/**
 * Reads numeric rows from bytes. Every number is the same double as `Number()` gives for its cell (with the decimal mark
 * made a point); an empty cell is NaN. One instance reads one file from front to back.
 *
 * Exactness: a whole number below 2^53 times or over a power of ten up to 10^22 is one correctly rounded operation on
 * two exact doubles (W. D. Clinger, How to read floating point numbers accurately, PLDI 1990); any other cell goes
 * through `Number()` itself.
 */
export class ByteRows {
  /** Row the next line goes to, within the block. */
  private row = 0;
  private readonly block: readonly Float64Array<ArrayBuffer>[];
  private readonly shape: RowShape;
  private readonly takeBlock: TakeBlock;
  /** Where the cell read last ended. */
  private end = 0;

  constructor(shape: RowShape, takeBlock: TakeBlock) {
    this.shape = shape;
    this.takeBlock = takeBlock;
    this.block = shape.wanted.filter(Boolean).map(() => new Float64Array(blockRows));
  }

  /**
   * Reads the lines in bytes [from, to), which must end with a line feed.
   *
   * @returns `to`, or where a line begins that is not a plain row: a cell with text or quotes, too few or too many cells,
   *          nothing at all. The rows before it have been handed over; go on behind it.
   */
  read(bytes: Uint8Array, from: number, to: number): number {
    let at = from;
    while (at < to) {
      if (this.row === blockRows) this.flush();
      if (!this.line(bytes, at)) {
        this.flush();
        return at;
      }
      this.row++;
      at = this.end;
    }
    return to;
  }

  /** Hands over the rows read so far. */
  flush(): void {
    if (this.row > 0) this.takeBlock(this.block, this.row);
    this.row = 0;
  }

  /** Reads one line into the row; false where it is not plain. */
  private line(bytes: Uint8Array, start: number): boolean {
    const { delimiter, wanted } = this.shape;
    const last = wanted.length - 1;
    let at = start;
    let target = 0;
    for (let cell = 0; cell <= last; cell++) {
      if (wanted[cell]) {
        if (!this.number(bytes, at, target++)) return false;
      } else if (!this.pass(bytes, at)) return false;
      at = this.end;
      const mark = bytes[at]!;
      if (cell === last) break;
      if (mark === delimiter) at++;
      else if (delimiter !== blank || mark !== tab) return false;
    }
    if (delimiter === blank) at = skipBlanks(bytes, at);
    if (bytes[at] === carriageReturn) at++;
    this.end = at + 1;
    return bytes[at] === lineFeed;
  }

  /** Passes over a cell that is not wanted; false where it is quoted, as it may then hold anything. */
  private pass(bytes: Uint8Array, start: number): boolean {
    const { delimiter } = this.shape;
    let at = delimiter === blank ? skipBlanks(bytes, start) : start;
    for (
      let byte = bytes[at]!;
      byte !== delimiter && byte !== lineFeed && byte !== carriageReturn;
      byte = bytes[++at]!
    ) {
      if (byte === quote || (byte === tab && delimiter === blank)) return false;
    }
    this.end = at;
    return true;
  }

  /** Reads a cell into column `target`; false where it is no plain number. Leaves `end` on the byte behind it. */
  private number(bytes: Uint8Array, start: number, target: number): boolean {
    let at = start;
    let byte = bytes[at]!;
    while (byte === blank || (byte === tab && this.shape.delimiter !== tab)) byte = bytes[++at]!;
    const first = at;
    if (byte === 45 || byte === 43) byte = bytes[++at]!;
    const digitsFrom = at;

    // Up to nine digits fit a small integer, which is quicker; the mark is no digit.
    let whole = 0;
    let digit = byte - 48;
    const smallUntil = at + 9;
    while (digit >= 0 && digit <= 9 && at < smallUntil) {
      whole = (whole * 10 + digit) | 0;
      digit = bytes[++at]! - 48;
    }
    let mantissa = whole;
    while (digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit;
      digit = bytes[++at]! - 48;
    }
    let digits = at - digitsFrom;
    let exponent = 0;
    if (bytes[at] === this.shape.decimalMark) {
      const fractionFrom = ++at;
      digit = bytes[at]! - 48;
      if (at <= smallUntil) {
        let small = mantissa | 0;
        while (digit >= 0 && digit <= 9 && at <= smallUntil) {
          small = (small * 10 + digit) | 0;
          digit = bytes[++at]! - 48;
        }
        mantissa = small;
      }
      while (digit >= 0 && digit <= 9) {
        mantissa = mantissa * 10 + digit;
        digit = bytes[++at]! - 48;
      }
      exponent = fractionFrom - at;
      digits += at - fractionFrom;
    }
    if (digits === 0) return this.empty(bytes, first, target);
    byte = bytes[at]!;
    if (byte === 101 || byte === 69) return this.written(bytes, first, at, target);
    this.end = at;
    if (byte === blank || byte === tab) {
      this.end = this.blanksBehind(bytes, at);
      byte = bytes[this.end]!;
    }
    if (byte !== this.shape.delimiter && byte !== lineFeed && byte !== carriageReturn && !this.isGap(byte))
      return false;
    if (mantissa >= exactWhole || exponent < -22) return this.written(bytes, first, at, target);
    const value = exponent === 0 ? mantissa : mantissa / exactPowers[-exponent]!;
    this.block[target]![this.row] = bytes[first] === 45 ? -value : value;
    return true;
  }

  private isGap(byte: number): boolean {
    return this.shape.delimiter === blank && byte === tab;
  }

  /** Blanks behind a number: they part cells where blanks are the delimiter, else they are passed over. */
  private blanksBehind(bytes: Uint8Array, at: number): number {
    const { delimiter } = this.shape;
    if (delimiter === blank) return at;
    let end = at;
    while (bytes[end] === blank || (bytes[end] === tab && delimiter !== tab)) end++;
    return end;
  }

  /** An empty cell is a missing value; a lone sign or mark is no number. Runs of blanks have no empty cells. */
  private empty(bytes: Uint8Array, at: number, target: number): boolean {
    const byte = bytes[at]!;
    const { delimiter } = this.shape;
    if (delimiter === blank || (byte !== delimiter && byte !== lineFeed && byte !== carriageReturn)) return false;
    this.block[target]![this.row] = Number.NaN;
    this.end = at;
    return true;
  }

  /** A number with an exponent or more digits than are quick to round: `Number()` reads it. */
  private written(bytes: Uint8Array, first: number, known: number, target: number): boolean {
    let at = known;
    if (bytes[at] === 101 || bytes[at] === 69) {
      at++;
      if (bytes[at] === 45 || bytes[at] === 43) at++;
      const from = at;
      while (bytes[at]! >= 48 && bytes[at]! <= 57) at++;
      if (at === from) return false;
    }
    let text = "";
    for (let i = first; i < at; i++) text += bytes[i] === this.shape.decimalMark ? "." : String.fromCharCode(bytes[i]!);
    const value = Number(text);
    this.end = this.blanksBehind(bytes, at);
    const byte = bytes[this.end]!;
    const isEnd = byte === this.shape.delimiter || byte === lineFeed || byte === carriageReturn || this.isGap(byte);
    if (!isEnd || !Number.isFinite(value)) return false;
    this.block[target]![this.row] = value;
    return true;
  }
}

function skipBlanks(bytes: Uint8Array, from: number): number {
  let at = from;
  while (bytes[at] === blank || bytes[at] === tab) at++;
  return at;
}
