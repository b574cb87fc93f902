import { describe, expect, test } from "vitest";
import { unpackedSource } from "../../src/capture/archives/unpacked-source.ts";
import { NotInParts } from "../../src/capture/model/reader.ts";

const megabyte = 1 << 20;
const pieces = 80;
const byteAt = (at: number) => (at * 7 + (at >> 16)) & 255;

/** Counts how often it begins. */
function counted(expected = 0) {
  let begun = 0;
  async function* begin() {
    begun++;
    for (let piece = 0; piece < pieces; piece++) {
      const bytes = new Uint8Array(megabyte);
      for (let i = 0; i < megabyte; i++) bytes[i] = byteAt(piece * megabyte + i);
      yield bytes;
    }
  }
  return { source: unpackedSource({ name: "a.csv", expected, isSizeGuessed: true }, begin), begun: () => begun };
}

describe("bytes while they are unpacked", () => {
  test("come once from front to back, with the size at the end", async () => {
    const { source, begun } = counted();
    const stride = 3 * megabyte + 11;
    let length = 0;
    for (let at = 0; at < source.size; at += stride) {
      const bytes = await source.read(at, Math.min(at + stride, source.size));
      expect(bytes.findIndex((byte, i) => byte !== byteAt(at + i))).toBe(-1);
      length += bytes.length;
    }
    expect(length).toBe(pieces * megabyte);
    expect(source.size).toBe(pieces * megabyte);
    expect(begun()).toBe(1);
  });

  test("are there again a few pieces back, and are unpacked anew for what lies further back", async () => {
    const { source, begun } = counted(1000 * megabyte);
    expect(source.size).toBe(1000 * megabyte);
    await source.read(40 * megabyte, 41 * megabyte);
    const near = await source.read(30 * megabyte + 5, 30 * megabyte + 8);
    expect([...near]).toEqual([5, 6, 7].map((i) => byteAt(30 * megabyte + i)));
    expect(begun()).toBe(1);
    expect((await source.read(3, 4))[0]).toBe(byteAt(3));
    expect(begun()).toBe(2);
  });

  test("are given up where they are read to and fro", async () => {
    const { source } = counted();
    const toAndFro = async () => {
      for (let turn = 0; turn < 10; turn++) {
        await source.read(40 * megabyte, 40 * megabyte + 1);
        await source.read(0, 1);
      }
    };
    await expect(toAndFro()).rejects.toThrow(NotInParts);
  });
});
