// A share of the odd logs of `npm run full:logs`: none of these is read wrongly.

import { expect, test } from "vitest";
import { random } from "../reference/recorders.ts";
import { ofTrials } from "../share.ts";
import { kinds, outcomeOf } from "./kinds.ts";

const each = ofTrials(2, 4);

test.each(Object.keys(kinds))("%s is read right, asked about or refused", async (kind) => {
  const place = Object.keys(kinds).indexOf(kind);
  for (let k = 0; k < each; k++) expect(await outcomeOf(kind, random(100_000 * place + k))).not.toBe("wrong");
});
