import { expect, test } from "vitest";
import { newestOnly } from "../../workers/newest-only.ts";

test("one is under way, the newest waits, the overtaken answer null", async () => {
  const asked: number[] = [];
  const finish: (() => void)[] = [];
  const ask = newestOnly((n: number) => {
    asked.push(n);
    return new Promise<number>((resolve) => finish.push(() => resolve(n)));
  });
  const answers = [ask(1), ask(2), ask(3)];
  finish[0]!();
  expect(await answers[0]).toBe(1);
  expect(await answers[1]).toBeNull();
  finish[1]!();
  expect(await answers[2]).toBe(3);
  expect(asked).toEqual([1, 3]);
});

test("a failed request does not hold up the next", async () => {
  const ask = newestOnly((n: number) => (n === 1 ? Promise.reject(new RangeError("no")) : Promise.resolve(n)));
  await expect(ask(1)).rejects.toThrow("no");
  expect(await ask(2)).toBe(2);
});
