// NumPy arrays in every order of their numbers, against the numbers they were made of (NEP 1), whole and in parts.

import { describe, expect, test } from "vitest";
import { NotInParts } from "../../src/capture/model/reader.ts";
import { values } from "./open.ts";
import { asWhole, expectSame, inParts } from "./parted.ts";

interface Shape {
  readonly descr: string;
  readonly shape: readonly number[];
  readonly isFortran?: boolean;
  readonly body: Uint8Array;
}

/** Version 1.0: magic, version, length of the header, header, numbers. */
function npy({ descr, shape, isFortran = false, body }: Shape): Uint8Array {
  const order = isFortran ? "True" : "False";
  const header = `{'descr': ${descr}, 'fortran_order': ${order}, 'shape': (${shape.join(", ")},), }`.padEnd(117);
  const bytes = new Uint8Array(10 + header.length + 1 + body.length);
  bytes.set([0x93, ...new TextEncoder().encode("NUMPY"), 1, 0, header.length + 1, 0]);
  bytes.set(new TextEncoder().encode(`${header}\n`), 10);
  bytes.set(body, 11 + header.length);
  return bytes;
}

const rows = 240_003;
const numberAt = (r: number, c: number) => (c === 0 ? r / 1000 : Math.fround(0.5 + 0.4 * Math.sin(r / (60 + 13 * c))));

/** Singles or doubles of a matrix of `rows` by 3, its first column the time. */
function matrix(Kind: typeof Float32Array | typeof Float64Array, order: "row by row" | "column by column") {
  const numbers = new Kind(3 * rows);
  const place = (r: number, c: number) => (order === "row by row" ? 3 * r + c : c * rows + r);
  for (let r = 0; r < rows; r++) for (let c = 0; c < 3; c++) numbers[place(r, c)] = numberAt(r, c);
  return new Uint8Array(numbers.buffer);
}

const layouts = {
  "rows beside each other": { shape: [rows, 3], body: matrix(Float64Array, "row by row") },
  "Fortran order": { shape: [rows, 3], isFortran: true, body: matrix(Float64Array, "column by column") },
  "a wide array": { shape: [3, rows], body: matrix(Float64Array, "column by column") },
  "a wide array in Fortran order": { shape: [3, rows], isFortran: true, body: matrix(Float64Array, "row by row") },
};

/** Big-endian time, a word, volts of two kinds and a count, packed. */
function structured(): Uint8Array {
  const width = 8 + 4 + 4 + 2 + 2;
  const view = new DataView(new ArrayBuffer(rows * width));
  for (let r = 0; r < rows; r++) {
    const at = r * width;
    view.setFloat64(at, numberAt(r, 0), false);
    view.setUint32(at + 8, 65, true);
    view.setFloat32(at + 12, r % 5000 === 7 ? Number.NaN : numberAt(r, 1), true);
    view.setUint16(at + 16, 0x3800 + (r % 64), true); // half precision: 0.5 + k/2048
    view.setInt16(at + 18, r % 900, false);
  }
  const descr =
    "[('Time (s)', '>f8'), ('note', '<U1'), ('Front O2 (V)', '<f4'), ('Rear O2 (V)', '<f2'), ('Speed', '>i2')]";
  return npy({ descr, shape: [rows], body: new Uint8Array(view.buffer) });
}

describe("a NumPy array", () => {
  test.each(Object.entries(layouts))("of %s is what was written, whole and in parts", async (_, layout) => {
    const capture = await expectSame(npy({ descr: "'<f8'", ...layout }), "a.npy");
    expect(capture.channels.length).toBe(2);
    for (const [i, channel] of capture.channels.entries())
      expect(values(channel).findIndex((value, r) => value !== numberAt(r, i + 1))).toBe(-1);
  });

  test("of single precision with a stated rate keeps every channel", async () => {
    const body = matrix(Float32Array, "column by column");
    const capture = await expectSame(npy({ descr: "'<f4'", shape: [3, rows], body }), "a.npy", { rate: 2000 });
    expect(capture.channels.length).toBe(3);
    expect(values(capture.channels[2]!).findIndex((value, r) => value !== numberAt(r, 2))).toBe(-1);
  });

  test("of named fields of many types is what was written, whole and in parts", async () => {
    const capture = await expectSame(structured(), "a.npy");
    expect(capture.channels.map(({ name }) => name)).toEqual(["Front O2", "Rear O2", "Speed"]);
    const [front, rear, speed] = capture.channels.map(values);
    expect([front![6], front![7], rear![65], speed![901]]).toEqual([numberAt(6, 1), Number.NaN, 0.5 + 1 / 2048, 1]);
  });

  test.each(Object.entries(layouts))("of %s that is cut short keeps each number in its place", async (_, layout) => {
    const cut = npy({ descr: "'<f8'", ...layout });
    const capture = await expectSame(cut.subarray(0, cut.length - 8 * 3000 - 5), "a.npy");
    expect(capture.remarks.some(({ text }) => text.includes("claims more numbers"))).toBe(true);
    const there = values(capture.channels[1]!);
    expect(there.findIndex((value, r) => value !== numberAt(r, 2) && !Number.isNaN(value))).toBe(-1);
    expect(there.filter((value) => !Number.isNaN(value)).length).toBeGreaterThan(rows - 3005);
  });

  test("of a polled log is given up in parts", async () => {
    const body = new Uint8Array(
      Float64Array.from({ length: 2 * rows }, (_, i) => (i % 2 ? Math.sin(i) : i / 10)).buffer,
    );
    const slow = npy({ descr: "'<f8'", shape: [rows, 2], body });
    await expect(inParts(slow, "a.npy")).rejects.toThrow(NotInParts);
    expect((await asWhole(slow, "a.npy")).channels[0]!.polled).toBe(true);
  });
});
