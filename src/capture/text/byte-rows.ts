// Rows of plain numbers straight from bytes: no text is decoded. Whatever is not plain is left to the careful reader.

/** "skip": passed over, whatever it holds. */
export type CellUse = "number" | "number-or-empty" | "skip";

/** What the rows look like. Byte values. */
export interface RowShape {
  /** "," ";" tab "|", or a blank for runs of blanks and tabs. */
  readonly delimiter: number;
  readonly decimalMark: number;
  /** One entry a cell of a row. */
  readonly cells: readonly CellUse[];
}

/** Takes `rows` values of each column of numbers, in the order of the columns; the arrays are used again afterwards. */
export type TakeBlock = (block: readonly Float64Array[], rows: number) => void;

const blockRows = 4096;

/** Powers of ten that a double holds exactly. */
const exactPowers = Float64Array.from({ length: 23 }, (_, exponent) => Number(`1e${exponent}`));
/** Whole numbers below this are exact in a double. */
const exactWhole = 2 ** 53;
/** First whole number of more than seven digits. */
const tooWide = 10_000_000;

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
  /** 1 for each column of numbers that had one of more than seven digits: single precision would not hold it. */
  readonly isWide: Uint8Array;
  /** 1 for each column of numbers that had an empty cell; the taker of blocks sets it back. */
  readonly hadEmpty: Uint8Array;
  /** Where the cell read last ended. */
  private end = 0;
  private wasEmpty = false;

  constructor(shape: RowShape, takeBlock: TakeBlock) {
    this.shape = shape;
    this.takeBlock = takeBlock;
    this.block = shape.cells.filter((use) => use !== "skip").map(() => new Float64Array(blockRows));
    this.isWide = new Uint8Array(this.block.length);
    this.hadEmpty = new Uint8Array(this.block.length);
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
    const { delimiter, cells } = this.shape;
    const last = cells.length - 1;
    let at = start;
    let target = 0;
    for (let cell = 0; cell <= last; cell++) {
      const use = cells[cell]!;
      if (use === "skip") {
        if (!this.pass(bytes, at)) return false;
        at = this.end;
      } else {
        const end = this.short(bytes, at, target);
        if (end < 0) {
          if (!this.number(bytes, at, target)) return false;
          if (use === "number" && this.wasEmpty) return false;
          at = this.end;
        } else at = end;
        target++;
      }
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

  /**
   * The usual cell, in small integers alone: a sign or none, one to nine digits, a mark among them or none, and then the
   * delimiter or the end of the line.
   *
   * @returns the byte behind it; -1 for any other cell, of which nothing is stored.
   */
  private short(bytes: Uint8Array, start: number, target: number): number {
    const { delimiter, decimalMark } = this.shape;
    const isNegative = bytes[start] === 45;
    const from = isNegative ? start + 1 : start;
    let at = from;
    let whole = 0; // beyond nine digits this is wrong, and not used
    let digit = bytes[at]! - 48;
    while (digit >>> 0 < 10) {
      whole = (whole * 10 + digit) | 0;
      digit = bytes[++at]! - 48;
    }
    let digits = at - from;
    let decimals = 0;
    if (digit + 48 === decimalMark) {
      digit = bytes[++at]! - 48;
      while (digit >>> 0 < 10) {
        whole = (whole * 10 + digit) | 0;
        digit = bytes[++at]! - 48;
      }
      decimals = at - from - digits - 1;
      digits += decimals;
    }
    const byte = digit + 48;
    if (digits === 0 || digits > 9 || (byte !== delimiter && byte !== lineFeed && byte !== carriageReturn)) return -1;
    if (whole >= tooWide && this.isWide[target] === 0) this.noteWidth(whole, target);
    const value = whole / exactPowers[decimals]!;
    this.block[target]![this.row] = isNegative ? -value : value;
    return at;
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
    this.wasEmpty = false;
    if (byte === 45 || byte === 43) byte = bytes[++at]!;
    const digitsFrom = at;

    let mantissa = 0;
    let digit = byte - 48;
    while (digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit;
      digit = bytes[++at]! - 48;
    }
    let digits = at - digitsFrom;
    let exponent = 0;
    if (bytes[at] === this.shape.decimalMark) {
      const fractionFrom = ++at;
      digit = bytes[at]! - 48;
      while (digit >= 0 && digit <= 9) {
        mantissa = mantissa * 10 + digit;
        digit = bytes[++at]! - 48;
      }
      exponent = fractionFrom - at;
      digits += at - fractionFrom;
    }
    if (digits === 0) return this.empty(bytes, first, target);
    byte = bytes[at]!;
    if (byte === 101 || byte === 69) {
      const written = this.exponent(bytes, at + 1);
      if (Number.isNaN(written)) return false;
      exponent += written;
      at = this.end;
    }
    if (!this.isEnd(bytes, at)) return false;
    if (mantissa >= tooWide) this.noteWidth(mantissa, target);
    let value: number;
    if (mantissa >= exactWhole || exponent < -22 || exponent > 22) {
      value = Math.abs(this.written(bytes, digitsFrom, at));
      if (value === Number.POSITIVE_INFINITY) return false;
    } else if (exponent === 0) value = mantissa;
    else value = exponent < 0 ? mantissa / exactPowers[-exponent]! : mantissa * exactPowers[exponent]!;
    this.block[target]![this.row] = bytes[first] === 45 ? -value : value;
    return true;
  }

  /** The power of ten behind an "e", digits from `from` on; NaN where there is none. Leaves `end` behind it. */
  private exponent(bytes: Uint8Array, from: number): number {
    const signed = bytes[from] === 45 || bytes[from] === 43 ? 1 : 0;
    let at = from + signed;
    let power = 0;
    for (let digit = bytes[at]! - 48; digit >= 0 && digit <= 9; digit = bytes[++at]! - 48) {
      power = Math.min(power * 10 + digit, 99_999);
    }
    this.end = at;
    if (at === from + signed) return Number.NaN;
    return bytes[from] === 45 ? -power : power;
  }

  /** True when a cell ends at `at`, or behind the blanks there. Leaves `end` there. */
  private isEnd(bytes: Uint8Array, at: number): boolean {
    const { delimiter } = this.shape;
    let byte = bytes[at]!;
    this.end = at;
    if (delimiter !== blank && (byte === blank || byte === tab)) {
      while (bytes[this.end] === blank || (bytes[this.end] === tab && delimiter !== tab)) this.end++;
      byte = bytes[this.end]!;
    }
    return byte === delimiter || byte === lineFeed || byte === carriageReturn || (delimiter === blank && byte === tab);
  }

  /** Zeros at the end of a mantissa are no digits that matter. */
  private noteWidth(mantissa: number, target: number): void {
    let rest = mantissa;
    while (rest >= tooWide && rest % 10 === 0 && rest < exactWhole) rest /= 10;
    if (rest >= tooWide) this.isWide[target] = 1;
  }

  /** An empty cell is a missing value; a lone sign or mark is no number. Runs of blanks have no empty cells. */
  private empty(bytes: Uint8Array, at: number, target: number): boolean {
    const byte = bytes[at]!;
    const { delimiter } = this.shape;
    if (delimiter === blank || (byte !== delimiter && byte !== lineFeed && byte !== carriageReturn)) return false;
    this.block[target]![this.row] = Number.NaN;
    this.wasEmpty = true;
    this.hadEmpty[target] = 1;
    this.end = at;
    return true;
  }

  /** More digits than are quick to round: `Number()` reads them. */
  private written(bytes: Uint8Array, from: number, to: number): number {
    let text = "";
    for (let i = from; i < to; i++) text += bytes[i] === this.shape.decimalMark ? "." : String.fromCharCode(bytes[i]!);
    return Number(text);
  }
}

function skipBlanks(bytes: Uint8Array, from: number): number {
  let at = from;
  while (bytes[at] === blank || bytes[at] === tab) at++;
  return at;
}
