import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { textWidth } from "../../src/report/paper/metrics.ts";
import { largestThatFits, shortenEnd, shortenMiddle, wrap, wrapAtMost } from "../../src/report/paper/wrap.ts";

const face = { size: 3.3 } as const;
const widthOf = (text: string) => textWidth(text, face.size);

describe("wrap", () => {
  test("keeps every word, in order, in lines that fit", () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-zA-Zäé0-9]{1,12}$/)),
        fc.integer({ min: 30, max: 120 }),
        (words, width) => {
          const lines = wrap(words.join(" "), width, face);
          expect(lines.join(" ").split(" ").filter(Boolean)).toEqual(words);
          for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(width);
        },
      ),
    );
  });

  test("breaks a word that is wider than the line, losing no letter", () => {
    const lines = wrap("W".repeat(100), 20, face);
    expect(lines.join("")).toBe("W".repeat(100));
    for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(20);
  });

  test("keeps a number and its unit together where a no-break space joins them", () => {
    expect(wrap("took 1.4\u00a0s", widthOf("took 1.4"), face)).toEqual(["took", "1.4\u00a0s"]);
  });

  test("ends in an ellipsis when the lines run out", () => {
    const lines = wrapAtMost(2, "one two three four five six seven", widthOf("one two three"), face);
    expect(lines).toHaveLength(2);
    expect(lines[0]).toBe("one two three");
    expect(lines[1]).toMatch(/^four .*…$/);
  });
});

describe("shortening", () => {
  test("never gives more than the width, and leaves alone what fits", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), fc.integer({ min: 5, max: 60 }), (text, width) => {
        for (const shorten of [shortenEnd, shortenMiddle]) {
          const short = shorten(text, width, face);
          if (widthOf(text) <= width) expect(short).toBe(text);
          else expect(widthOf(short)).toBeLessThanOrEqual(width);
        }
      }),
    );
  });

  test("keeps the beginning and the ending of a file name", () => {
    const short = shortenMiddle("2026-11-12 hatchback third try after warm-up.csv", 50, face);
    expect(short).toMatch(/^2026-11.*….*up\.csv$/);
  });
});

describe("largestThatFits", () => {
  test("takes the largest size at which the lines suffice, and the smallest when none does", () => {
    const choice = { sizes: [8, 6, 4], count: 1, weight: 400 } as const;
    expect(largestThatFits("ab", textWidth("ab", 6.5), choice)).toBe(6);
    expect(largestThatFits("ab ".repeat(50), 20, choice)).toBe(4);
  });
});
