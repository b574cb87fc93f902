import { describe, expect, test } from "vitest";
import { ByteRows, type RowShape } from "../../../src/capture/text/byte-rows.ts";

const comma = 44;
const point = 46;
const value = "number-or-empty";

/** Numbers of each wanted column, and where reading stopped. */
function read(text: string, shape: Partial<RowShape> & Pick<RowShape, "cells">) {
  const bytes = new TextEncoder().encode(text);
  const wanted = [...shape.cells.keys()].filter((cell) => shape.cells[cell] !== "skip");
  const columns: number[][] = wanted.map(() => []);
  const rows = new ByteRows({ delimiter: comma, decimalMark: point, ...shape }, (block, count) => {
    for (let row = 0; row < count; row++) {
      for (const [k, cell] of wanted.entries()) columns[k]!.push(block[row * shape.cells.length + cell]!);
    }
  });
  const stop = rows.read(bytes, 0, bytes.length);
  rows.flush();
  return { columns, stop, length: bytes.length, isWide: [...rows.isWide] };
}

/** Mulberry32, T. Ettinger (public domain): the same cases in every run. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Judge: Number(), ECMA-262 StringToNumber. Counts the cells whose double is another one, bit for bit. */
function different(cells: readonly string[]): string[] {
  const { columns, stop, length } = read(`${cells.join("\n")}\n`, { cells: [value] });
  expect(stop).toBe(length);
  expect(columns[0]!.length).toBe(cells.length);
  return cells.filter((cell, i) => !Object.is(columns[0]![i], Number(cell)));
}

/** Ways in which programs write numbers, drawn evenly. */
function writer(next: () => number): () => string {
  const digits = (most: number) =>
    Array.from({ length: 1 + Math.floor(next() * most) }, () => Math.floor(next() * 10)).join("");
  const sign = () => ["", "", "-", "+"][Math.floor(next() * 4)]!;
  const anyDouble = () => {
    const bits = new Uint32Array([next() * 2 ** 32, next() * 2 ** 32]);
    const value = new Float64Array(bits.buffer)[0]!;
    return Number.isFinite(value) ? value : 0;
  };
  const ways = [
    () => `${sign()}${digits(6)}.${digits(6)}`,
    () => `${sign()}${digits(12)}.${digits(12)}`,
    () => `${sign()}${digits(20)}`,
    () => `${sign()}.${digits(25)}`,
    () => `${sign()}${digits(5)}.`,
    () => `${sign()}${digits(4)}.${digits(8)}${next() < 0.5 ? "e" : "E"}${sign()}${digits(2)}`,
    () => String(anyDouble()),
    () => (next() * 10).toPrecision(1 + Math.floor(next() * 21)),
    () =>
      `${sign()}${"0".repeat(Math.floor(next() * 24))}${digits(17)}.${"0".repeat(Math.floor(next() * 24))}${digits(3)}`,
  ];
  return () => ways[Math.floor(next() * ways.length)]!();
}

describe("ByteRows", () => {
  // `npm run long:hostile` tries two million.
  const batches = Number(process.env.RANDOM_CELLS ?? 400_000) / 100_000;

  test(`gives the same double as Number() for ${batches * 100_000} random cells`, () => {
    const write = writer(random(20_260_101));
    for (let batch = 0; batch < batches; batch++) {
      expect(different(Array.from({ length: 100_000 }, write))).toEqual([]);
    }
  }, 60_000);

  test("gives the same double as Number() halfway between two doubles and one digit beside it", () => {
    const next = random(7);
    const cells: string[] = [];
    for (let i = 0; i < 20_000; i++) {
      // 2^53 + odd lies halfway between two doubles; so do its multiples by two, up to 2^63.
      const half = (2n ** 53n + BigInt(Math.floor(next() * 2 ** 40)) * 2n + 1n) << BigInt(Math.floor(next() * 10));
      cells.push(
        `${half}`,
        `${half - 1n}`,
        `${half + 1n}`,
        `${half}.0000000001`,
        `${half}e-${Math.floor(next() * 30)}`,
      );
      const small = Math.floor(next() * 9_999_999);
      for (const exponent of [20, 21, 22, 23]) cells.push(`0.${"0".repeat(exponent - 8)}${small}`);
    }
    expect(different(cells)).toEqual([]);
  }, 60_000);

  // Paxson, A Program for Testing IEEE Decimal-Binary Conversion (1991), and the ends of the range (IEEE 754).
  test("gives the same double as Number() for known hard cases", () => {
    const cells = [
      "1e23",
      "8.5e22",
      "9007199254740993",
      "9007199254740992",
      "9007199254740991",
      "0.500000000000000166533453693773481063544750213623046875",
    ]
      .concat([
        "4.9e-324",
        "2.4703282292062327e-324",
        "2.4703282292062328e-324",
        "2.2250738585072011e-308",
        "1.7976931348623157e308",
      ])
      .concat([
        "5e-324",
        "6.92712e-14",
        "7120190517612959703e120",
        "3507665085003296281e-73",
        "0",
        "-0",
        "-0.0",
        "+0",
        "000",
        ".5",
        "5.",
        "-.5e-0",
      ])
      .concat([
        "123456789",
        "999999999",
        "1234567890",
        "12345678.9",
        "123456789.1",
        "0.123456789",
        "0.1234567891",
        "99999999.99999999",
      ]);
    expect(different(cells)).toEqual([]);
  });

  test("an empty cell is missing, blanks around a number are passed over, CRLF ends a line", () => {
    const { columns } = read("1,, 3 \r\n,5,6\r\n 7 ,8,\r\n", { cells: [value, value, value] });
    expect(columns).toEqual([
      [1, Number.NaN, 7],
      [Number.NaN, 5, 8],
      [3, 6, Number.NaN],
    ]);
  });

  test("reads decimal commas, tabs and runs of blanks", () => {
    const semicolons = read("1,5;-2,25\n", { delimiter: 59, decimalMark: comma, cells: [value, value] });
    expect(semicolons.columns).toEqual([[1.5], [-2.25]]);
    expect(read("1\t\t3\n", { delimiter: 9, cells: [value, value, value] }).columns).toEqual([[1], [Number.NaN], [3]]);
    expect(read("  1   2\t 3  \n4 5 6\n", { delimiter: 32, cells: [value, value, value] }).columns).toEqual([
      [1, 4],
      [2, 5],
      [3, 6],
    ]);
  });

  test("an empty cell where a number must stand is no plain row", () => {
    expect(read("1,2\n,3\n", { cells: ["number", value] }).stop).toBe(4);
  });

  test("tells columns with more than seven digits, zeros at either end aside", () => {
    const text = "0.4500000000,12345678,1e-9,0.00001234567\n-123456.7,1,0.123456789e3,9999999\n";
    expect(read(text, { cells: [value, value, value, value] }).isWide).toEqual([0, 1, 1, 0]);
  });

  test("passes over the cells that are not wanted", () => {
    expect(read("1,idle,2\n3,,4\n", { cells: [value, "skip", value] }).columns).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });

  test.each([
    "x,1\n",
    "1\n",
    "1,2,3\n",
    "\n",
    '"1",2\n',
    "1,2 V\n",
    "0x10,2\n",
    "1e,2\n",
    "-,2\n",
    ".,2\n",
    "1e999,2\n",
    "1-2,3\n",
    "NaN,2\n",
    "1,2\r3\n",
  ])("stops before the line %j and keeps the rows before it", (odd) => {
    const { columns, stop } = read(`1,2\n3,4\n${odd}5,6\n`, { cells: [value, value] });
    expect(stop).toBe(8);
    expect(columns).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });
});
