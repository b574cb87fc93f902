// Where room is taken: by fields, it says the same as looking at everything, and many texts find their place in time.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Box } from "../../src/drawing/boxes.ts";
import { dimensionGeometry } from "../../src/drawing/dimension.ts";
import { TakenRoom } from "../../src/drawing/taken.ts";
import { overlapWith } from "./overlap-with.ts";

const within: Box = { left: 50, top: 20, right: 1250, bottom: 420 };
const size = { width: 96, height: 32 };

const box = fc
  .tuple(
    fc.double({ min: -3000, max: 4000, noNaN: true }),
    fc.double({ min: -900, max: 1400, noNaN: true }),
    fc.double({ min: 0, max: 900, noNaN: true }),
    fc.double({ min: 0, max: 300, noNaN: true }),
  )
  .map(([left, top, width, height]): Box => ({ left, top, right: left + width, bottom: top + height }));

describe("room that is taken", () => {
  // Judge: the plain sum over all boxes.
  test("is the sum over all boxes, whichever fields they lie in", () => {
    fc.assert(
      fc.property(fc.array(box, { maxLength: 30 }), box, (boxes, asked) => {
        const room = new TakenRoom(within, size);
        for (const one of boxes) room.add(one);
        expect(room.overlapOf(asked)).toBeCloseTo(overlapWith(boxes)(asked), 4);
      }),
    );
  });

  test("leaves out what belongs to whoever asks", () => {
    const room = new TakenRoom(within, size);
    const [mine, other] = [{}, {}];
    const square = { left: 100, top: 100, right: 110, bottom: 110 };
    room.add(square, mine);
    room.add(square, other);
    room.add(square);
    expect(room.overlapOf(square, mine)).toBe(200);
    expect(room.overlapOf(square)).toBe(300);
  });

  test("of twice as many dimensions spread over a lane, each looks at about as many others", () => {
    const looks = (count: number) => {
      let asked = 0;
      const room = new TakenRoom({ ...within, right: 50 + 20 * count }, size);
      for (let i = 0; i < count; i++) {
        const at = { x: 50 + 20 * i, y: 200 };
        const texts = [{ width: 60, size: 17 }];
        const request = { kind: "time" as const, from: at, to: { x: at.x + 12, y: 210 }, place: 150, texts, within };
        const { textBox } = dimensionGeometry({ ...request, taken: (one) => room.overlapOf(one) });
        // What lies far away is not looked at: boxes counted are those of the fields that the text touches.
        asked += room.near(textBox);
        room.add(textBox);
      }
      return asked / count;
    };
    expect(looks(800)).toBeLessThan(1.5 * looks(400));
  });
});
