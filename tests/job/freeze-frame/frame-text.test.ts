import { expect, test } from "vitest";
import { frameInText } from "../../../src/job/freeze-frame/frame-text.ts";

const saysOf = (text: string) => frameInText(text, null).unread.map(({ says }) => says);

test("what is told is added to the frame that is there", () => {
  const before = { code: "P0420", values: { load: 38, engineSpeed: 900 } };
  expect(frameInText("42 0C 00 1F 40", before).frame).toEqual({
    code: "P0420",
    values: { load: 38, engineSpeed: 2000 },
  });
  expect(frameInText("load 40 %, P0430", before).frame).toEqual({
    code: "P0430",
    values: { load: 40, engineSpeed: 900 },
  });
});

// Two frames of one car: speeds of 2000 and 3024 rpm, 0.25 rpm a bit (SAE J1979).
test("two frames are not mixed: the first is taken, and the other is said", () => {
  const { frame, unread } = frameInText("42 0C 01 1F 40\n42 0C 00 2F 40", null);
  expect(frame?.values).toEqual({ engineSpeed: 2000 });
  expect(unread).toEqual([{ line: 2, says: expect.stringContaining("of another frame") }]);
});

test("bytes of which nothing is read are called what they are, and not words", () => {
  expect(saysOf("42 0C 00 1F")).toEqual([expect.stringContaining("Item 0C is cut short")]);
  // 00 00: no code stored a frame (SAE J1979).
  expect(saysOf("42 02 00 00 00")).toEqual([expect.stringContaining("No freeze frame is stored")]);
  expect(saysOf("nothing at all")).toEqual([expect.stringContaining("Nothing was understood")]);
});
