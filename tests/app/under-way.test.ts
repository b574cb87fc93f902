// What is under way is shown, the latest first; what is still going on when that ends is shown again, with its own way out.

import { createRoot } from "solid-js";
import { expect, test } from "vitest";
import { createUnderWay, type Watched } from "../../src/app/core/under-way.ts";

test("the earlier of two comes back when the later ends, and it is the one that is given up then", async () => {
  const underWay = createRoot(() => createUnderWay());
  const begun: Watched[] = [];
  const ends: (() => void)[] = [];
  const begin = (says: string) =>
    underWay.follow(says, (watched) => {
      begun.push(watched);
      return new Promise<void>((end) => ends.push(end));
    });
  const packing = begin("packing");
  const looking = begin("looking");
  begun[0]!.onProgress(3, 10);
  expect(underWay.work()?.says).toBe("looking");
  ends[1]!();
  await looking;
  expect(underWay.work()).toMatchObject({ says: "packing", done: 3, total: 10 });
  underWay.cancel();
  expect(begun.map(({ signal }) => signal.aborted)).toEqual([true, false]);
  ends[0]!();
  await packing;
  expect(underWay.work()).toBeNull();
});
