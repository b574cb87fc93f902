// Sizes of engines as people write them. 1 l is 1000 cm³ (SI).

import { expect, test } from "vitest";
import { litresOf } from "../../../src/signal/written/engine-size.ts";

test.each([
  ["1.6", 1.6],
  ["1,6 l", 1.6],
  [" 2 litres", 2],
  ["1598", 1.598],
  ["1598 cm³", 1.598],
  ["1.598 cc", null],
  ["999cc", 0.999],
  ["1.4 16V turbo", 1.4],
  // 350 x 2.54³ cm³ = 5735 cm³, the inch being 2.54 cm.
  ["350 cu in", 5.735],
  ["427 ci", 6.997],
])("%s is read as %s litres", (text, litres) => {
  const read = litresOf(text);
  expect(read === null ? null : Number(read.toFixed(3))).toBe(litres);
});

test.each(["", "turbo", "16V", "250 hp", "0", "-1.6", "40"])("%s is the size of no engine", (text) => {
  expect(litresOf(text)).toBeNull();
});
