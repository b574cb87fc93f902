// Arrays that are lent for one piece of work, and a grid on whose places the samples lie themselves.

import { expect, test, vi } from "vitest";
import { onGrid } from "../../src/signal/series/resample.ts";

/** With nothing kept yet of other work. */
async function freshRoom() {
  vi.resetModules();
  return (await import("../../src/signal/numbers/room.ts")).inRoom;
}

test("work within work is lent other arrays, and what is given back is lent again", async () => {
  const inRoom = await freshRoom();
  const buffers = inRoom((outer) => {
    const mine = outer(1000).fill(1);
    const other = inRoom((inner) => inner(1000).fill(2).buffer);
    expect(mine.every((value) => value === 1)).toBe(true);
    expect(other).not.toBe(mine.buffer);
    return [mine.buffer, other];
  });
  const again = inRoom((room) => [room(1000), room(900)]);
  expect(again.map(({ length }) => length)).toEqual([1000, 900]);
  expect(again[0]!.buffer).not.toBe(again[1]!.buffer);
  for (const { buffer } of again) expect(buffers).toContain(buffer);
});

test("given back is what was lent for work that failed, too", async () => {
  const inRoom = await freshRoom();
  let lent: unknown;
  expect(() =>
    inRoom((room) => {
      lent = room(5000).buffer;
      throw new RangeError("planted");
    }),
  ).toThrow("planted");
  inRoom((room) => expect(room(5000).buffer).toBe(lent));
});

test("samples that lie on the grid stand there as they are, before its start, beyond its end and around a hole", () => {
  const samples = Float64Array.of(1, 2, 3, NaN, 5, NaN, 7, 8, 9);
  const series = { time: { kind: "even", start: 0.3, step: 0.1, count: 9 } as const, samples };
  expect([...onGrid(series, { start: 0.5, step: 0.1, count: 4 })]).toEqual([3, NaN, NaN, NaN]);
  expect([...onGrid(series, { start: 0.1, step: 0.1, count: 12 })]).toEqual([
    ...[NaN, NaN, 1, 2, 3, NaN, NaN, NaN, 7, 8, 9, NaN],
  ]);
});
