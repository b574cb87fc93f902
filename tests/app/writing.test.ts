// How numbers and dates are written until somebody chooses. The values are those of the Unicode CLDR for each language.

import { expect, test } from "vitest";
import { asLanguage } from "../../src/app/core/writing.ts";

test.each([
  ["de", ",", "04.05.2026"],
  ["fr", ",", "04/05/2026"],
  ["en-US", ".", "May 4, 2026"],
  ["en-GB", ".", "4 May 2026"],
  ["sv", ",", "2026-05-04"],
])("%s", (language, decimal, dates) => {
  expect(asLanguage(language)).toEqual({ decimal, dates });
});
