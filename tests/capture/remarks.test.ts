// What is said while a file opens keeps its quantities apart, so that they are written when they are read.

import { afterEach, describe, expect, test } from "vitest";
import { RemarkBook, remarkText } from "../../src/capture/model/remarks.ts";
import { plainWriting, writeAs } from "../../src/signal/written/writing.ts";
import { open } from "./open.ts";

afterEach(() => writeAs(plainWriting));

/** Ten rows a second, with nothing from 3 to 8 s. */
const text = `Time [s],Front O2 [V]\n${Array.from({ length: 100 }, (_, i) => {
  const time = i < 30 ? i / 10 : 5 + i / 10;
  return `${time.toFixed(1)},${(0.45 + 0.3 * Math.sin(i)).toFixed(2)}`;
}).join("\n")}\n`;

describe("a remark", () => {
  test("made while the file opens is read with the decimal mark chosen later", async () => {
    const { remarks } = await open(text);
    const hole = remarks.find(({ text: said }) => said.startsWith("holes"))!;
    expect(remarkText(hole)).toContain("2.9 … 8.0\u00a0s");
    writeAs({ ...plainWriting, decimal: "," });
    expect(remarkText(hole)).toContain("2,9 … 8,0\u00a0s");
    expect(hole.text).toContain("2.9 … 8.0\u00a0s");
  });

  test("of a quantity that has units to choose from is read in the one chosen", () => {
    const book = new RemarkBook();
    book.tally(["the coolant stood at ", { value: 100, unit: "degC" }], "line 3", 1, "ECT");
    const [remark] = book.list();
    writeAs({ ...plainWriting, temperature: "degF" });
    // 100 °C is 212 °F.
    expect(remarkText(remark!)).toBe("the coolant stood at 212\u00a0°F: ECT");
  });

  test("goes through another book, and through JSON as kept recordings do, with its quantities", () => {
    const book = new RemarkBook();
    book.say(["one row every ", { value: 0.25, unit: "s" }]);
    const second = new RemarkBook();
    second.add(JSON.parse(JSON.stringify(book.list())));
    writeAs({ ...plainWriting, decimal: "," });
    expect(second.list().map(remarkText)).toEqual(["one row every 0,25\u00a0s"]);
  });
});
