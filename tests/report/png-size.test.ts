import { describe, expect, test } from "vitest";
import { Crc32 } from "../../src/capture/bytes/crc32.ts";
import { withPaperSize } from "../../src/report/paper/png-size.ts";

describe("withPaperSize", () => {
  // Published check value of this CRC: 0xCBF43926 for the digits one to nine.
  test("its check sum is CRC-32", () => {
    const check = new Crc32();
    check.take(new TextEncoder().encode("123456789"));
    expect(check.value).toBe(0xcbf43926);
  });

  test("puts one chunk behind the header and leaves every other byte alone", () => {
    const png = Uint8Array.from({ length: 60 }, (_, i) => i);
    const sized = withPaperSize(png, 300 / 25.4);
    expect(sized.slice(0, 33)).toEqual(png.slice(0, 33));
    expect(sized.slice(54)).toEqual(png.slice(33));
    const view = new DataView(sized.buffer, 33);
    expect(new TextDecoder().decode(sized.slice(37, 41))).toBe("pHYs");
    // 300 dots an inch, the inch being 25.4 mm by definition.
    expect([view.getUint32(8), view.getUint32(12), view.getUint8(16)]).toEqual([11811, 11811, 1]);
  });
});
