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

/**
 * Takes `rows` rows, the numbers of each side by side, one to a cell; cells that are passed over hold anything. The array is
 * used again afterwards.
 */
export type TakeBlock = (block: Float64Array, rows: number) => void;

/** Numbers in a block, about: few enough to stay in the processor's cache until they are taken. */
const blockSize = 16_384;

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
const plus = 43;
const minus = 45;
const zero = 48;

/**
 * Reads numeric rows from bytes. Every number is the same double as `Number()` gives for its cell (with the decimal mark
 * made a point); an empty cell is NaN. One instance reads one file from front to back.
 *
 * Exactness: a whole number below 2^53 times or over a power of ten up to 10^22 is one correctly rounded operation on
 * two exact doubles (W. D. Clinger, How to read floating point numbers accurately, PLDI 1990); any other cell goes
 * through `Number()` itself.
 */
export class ByteRows {
  /** Numbers of many rows, row after row. */
  private readonly block: Float64Array<ArrayBuffer>;
  /** Place of the next number in the block. */
  private place = 0;
  /** Where the row of that number begins. */
  private rowStart = 0;
  private readonly shape: RowShape;
  private readonly takeBlock: TakeBlock;
  /** 1 for each cell of a row that had more than seven digits once: single precision would not hold it. */
  readonly isWide: Uint8Array;
  /** 1 for each cell of a row that was empty once; the taker of blocks sets it back. */
  readonly hadEmpty: Uint8Array;
  /** The number that was read last by `number`; NaN where the cell was empty. */
  private value = 0;
  /** Where that number ended. */
  private end = 0;

  constructor(shape: RowShape, takeBlock: TakeBlock) {
    const width = shape.cells.length;
    this.shape = shape;
    this.takeBlock = takeBlock;
    this.block = new Float64Array(Math.ceil(blockSize / width) * width);
    this.isWide = new Uint8Array(width);
    this.hadEmpty = new Uint8Array(width);
  }

  /**
   * Reads the lines in bytes [from, to), which must end with a line feed.
   *
   * @returns `to`, or where a line begins that is not a plain row: a cell with text or quotes, too few or too many cells,
   *          nothing at all. The rows before it have been handed over; go on behind it.
   */
  read(bytes: Uint8Array, from: number, to: number): number {
    this.rowStart = from;
    for (let at = from; ; ) {
      at = this.usualCells(bytes, at, to);
      if (this.place === this.block.length) this.flush();
      if (at === to) return to;
      at = this.anyCell(bytes, at);
      if (at < 0) {
        this.flush();
        return this.rowStart;
      }
    }
  }

  /** Hands over the rows read so far. */
  flush(): void {
    const rows = Math.floor(this.place / this.shape.cells.length);
    if (rows > 0) this.takeBlock(this.block, rows);
    this.place = 0;
  }

  /**
   * Reads cells up to the end of the block as far as they are of the usual kind: a sign or none, one to nine digits, a mark
   * among them or none, and then the delimiter or the end of the line. In small integers alone, and without a call: three
   * quarters of the reading of a file are spent here.
   *
   * @returns where the next cell begins, which is any other, or `to`.
   */
  private usualCells(bytes: Uint8Array, from: number, to: number): number {
    const { block, isWide } = this;
    const { delimiter, decimalMark } = this.shape;
    const last = isWide.length - 1;
    let { place, rowStart } = this;
    let column = place % isWide.length;
    let at = from;
    while (at < to && place < block.length) {
      const start = at;
      const isNegative = bytes[at] === minus;
      if (isNegative) at++;
      const digitsFrom = at;
      let whole = 0; // beyond nine digits this is wrong, and not used
      let digit = bytes[at]! - zero;
      while (digit >>> 0 < 10) {
        whole = (whole * 10 + digit) | 0;
        digit = bytes[++at]! - zero;
      }
      let digits = at - digitsFrom;
      let decimals = 0;
      if (digit + zero === decimalMark) {
        const decimalsFrom = ++at;
        digit = bytes[at]! - zero;
        while (digit >>> 0 < 10) {
          whole = (whole * 10 + digit) | 0;
          digit = bytes[++at]! - zero;
        }
        decimals = at - decimalsFrom;
        digits += decimals;
      }
      if (digits === 0 || digits > 9) {
        at = start;
        break;
      }
      if (column < last) {
        if (digit + zero !== delimiter) {
          at = start;
          break;
        }
        at++;
        column++;
      } else {
        if (digit + zero === carriageReturn) at++;
        if (bytes[at] !== lineFeed) {
          at = start;
          break;
        }
        rowStart = ++at;
        column = 0;
      }
      // See isLong.
      if (whole >= tooWide && whole % (whole < 10 * tooWide ? 10 : 100) !== 0) isWide[place % isWide.length] = 1;
      const value = whole / exactPowers[decimals]!;
      block[place++] = isNegative ? -value : value;
    }
    this.place = place;
    this.rowStart = rowStart;
    return at;
  }

  /** Reads one cell of any kind. @returns where the next begins; -1 where this one is not plain, or no cell may follow. */
  private anyCell(bytes: Uint8Array, at: number): number {
    const { delimiter, cells } = this.shape;
    const cell = this.place % cells.length;
    let end = cells[cell] === "skip" ? this.pass(bytes, at) : this.number(bytes, at, cell);
    if (end < 0 || (cells[cell] === "number" && Number.isNaN(this.value))) return -1;
    if (cell < cells.length - 1) {
      if (bytes[end] !== delimiter && (delimiter !== blank || bytes[end] !== tab)) return -1;
    } else {
      if (delimiter === blank) end = skipBlanks(bytes, end);
      if (bytes[end] === carriageReturn) end++;
      if (bytes[end] !== lineFeed) return -1;
      this.rowStart = end + 1;
    }
    this.block[this.place++] = this.value;
    return end + 1;
  }

  /** Passes over a cell that is not wanted. @returns the byte behind it; -1 where it is quoted, as it may then hold anything. */
  private pass(bytes: Uint8Array, start: number): number {
    const { delimiter } = this.shape;
    let at = delimiter === blank ? skipBlanks(bytes, start) : start;
    for (
      let byte = bytes[at]!;
      byte !== delimiter && byte !== lineFeed && byte !== carriageReturn;
      byte = bytes[++at]!
    ) {
      if (byte === quote || (byte === tab && delimiter === blank)) return -1;
    }
    return at;
  }

  /** Reads any cell of column `target` into `value`. @returns the byte behind it; -1 where it is no plain number. */
  private number(bytes: Uint8Array, start: number, target: number): number {
    let at = start;
    let byte = bytes[at]!;
    while (byte === blank || (byte === tab && this.shape.delimiter !== tab)) byte = bytes[++at]!;
    const first = at;
    if (byte === minus || byte === plus) byte = bytes[++at]!;
    const digitsFrom = at;

    let mantissa = 0;
    let digit = byte - 48;
    while (digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit;
      digit = bytes[++at]! - zero;
    }
    let digits = at - digitsFrom;
    let exponent = 0;
    if (bytes[at] === this.shape.decimalMark) {
      const fractionFrom = ++at;
      digit = bytes[at]! - zero;
      while (digit >= 0 && digit <= 9) {
        mantissa = mantissa * 10 + digit;
        digit = bytes[++at]! - zero;
      }
      exponent = fractionFrom - at;
      digits += at - fractionFrom;
    }
    if (digits === 0) return this.empty(bytes, first, target);
    byte = bytes[at]!;
    if (byte === 101 || byte === 69) {
      const written = this.exponent(bytes, at + 1);
      if (Number.isNaN(written)) return -1;
      exponent += written;
      at = this.end;
    }
    if (!this.isEnd(bytes, at)) return -1;
    if (isLong(mantissa)) this.isWide[target] = 1;
    let value: number;
    if (mantissa >= exactWhole || exponent < -22 || exponent > 22) {
      value = Math.abs(this.written(bytes, digitsFrom, at));
      if (value === Number.POSITIVE_INFINITY) return -1;
    } else if (exponent === 0) value = mantissa;
    else value = exponent < 0 ? mantissa / exactPowers[-exponent]! : mantissa * exactPowers[exponent]!;
    this.value = bytes[first] === minus ? -value : value;
    return this.end;
  }

  /** The power of ten behind an "e", digits from `from` on; NaN where there is none. Leaves `end` behind it. */
  private exponent(bytes: Uint8Array, from: number): number {
    const signed = bytes[from] === minus || bytes[from] === plus ? 1 : 0;
    let at = from + signed;
    let power = 0;
    for (let digit = bytes[at]! - zero; digit >= 0 && digit <= 9; digit = bytes[++at]! - 48) {
      power = Math.min(power * 10 + digit, 99_999);
    }
    this.end = at;
    if (at === from + signed) return Number.NaN;
    return bytes[from] === minus ? -power : power;
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

  /** An empty cell is a missing value; a lone sign or mark is no number. Runs of blanks have no empty cells. */
  private empty(bytes: Uint8Array, at: number, target: number): number {
    const byte = bytes[at]!;
    const { delimiter } = this.shape;
    if (delimiter === blank || (byte !== delimiter && byte !== lineFeed && byte !== carriageReturn)) return -1;
    this.value = Number.NaN;
    this.hadEmpty[target] = 1;
    return at;
  }

  /** More digits than are quick to round: `Number()` reads them. */
  private written(bytes: Uint8Array, from: number, to: number): number {
    let text = "";
    for (let i = from; i < to; i++) text += bytes[i] === this.shape.decimalMark ? "." : String.fromCharCode(bytes[i]!);
    return Number(text);
  }
}

/** More than seven digits that matter: zeros at the end do not. */
function isLong(mantissa: number): boolean {
  let rest = mantissa;
  while (rest >= tooWide && rest % 10 === 0 && rest < exactWhole) rest /= 10;
  return rest >= tooWide;
}

function skipBlanks(bytes: Uint8Array, from: number): number {
  let at = from;
  while (bytes[at] === blank || bytes[at] === tab) at++;
  return at;
}

/**
 * What comes for the first time in the midst of a file (a sign, more than seven digits) makes the browser throw away the code
 * it compiled for what came before, and begin anew: some 10 ms. So each has come before any file.
 */
function rehearse(): void {
  const rows = new ByteRows({ delimiter: 44, decimalMark: 46, cells: ["number", "number"] }, () => {});
  const cells = new TextEncoder().encode("-1.5,12345678\r\n1234567.81,-2\n100000000,.5\n");
  // Some 8 calls go by before the browser keeps notes.
  for (let again = 0; again < 20; again++) {
    rows.read(cells, 0, cells.length);
    rows.flush();
  }
}
rehearse();
