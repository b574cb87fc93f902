// Stamps put in order part by part, against the same stamps put in order at once.

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { NotInParts, partGrain } from "../../src/capture/model/reader.ts";
import { PartStamps } from "../../src/capture/time/part-stamps.ts";
import { orderStamps, type WrittenStamps } from "../../src/capture/time/stamps.ts";

interface Ordered {
  readonly seconds: readonly number[];
  readonly rows: readonly number[];
  readonly doubt: WrittenStamps["doubt"] | null;
  readonly remarks: unknown;
}

function atOnce(written: WrittenStamps): Ordered {
  const { seconds, rows, doubt, remarks } = orderStamps(written);
  return { seconds: [...seconds], rows: [...(rows ?? seconds.keys())], doubt, remarks };
}

/** @param sizes  rows that come each time, in turn, as a multiple of the grain. */
function byParts(written: WrittenStamps, sizes: readonly number[]): Ordered {
  const { length } = written.seconds;
  const order = new PartStamps();
  const [seconds, rows]: [number[], number[]] = [[], []];
  let doubt: Ordered["doubt"] = null;
  let from = 0;
  for (let turn = 0, to = 0; from < length; turn++) {
    to = Math.min(length, Math.max(to, from) + partGrain * sizes[turn % sizes.length]!);
    const isLast = to === length;
    const end = isLast ? to : to - ((to - from) % partGrain);
    const part = order.take({ ...written, seconds: written.seconds.slice(from, end) }, isLast);
    if (!isLast) expect(part.stamps.seconds.length % partGrain).toBe(0);
    else expect(part.taken).toBe(length - from);
    seconds.push(...part.stamps.seconds);
    for (const row of part.rows ?? part.stamps.seconds.keys()) rows.push(from + row);
    doubt ??= part.stamps.doubt ?? null;
    from += part.taken;
  }
  order.finish();
  return { seconds, rows, doubt, remarks: order.remarks() };
}

const plain = { resolution: 1e-3, isAbsolute: false, wrap: 0 };

/** What may happen to a stamp. */
const spoiled = fc.constantFrom("no", "missing", "repeat", "back", "restart", "hole", "few back");
const spots = fc.array(fc.tuple(fc.nat(2999), spoiled), { maxLength: 25 });
const windows = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 6 });

/** s; a power of two, so that differences of stamps are exact, and the usual one does not depend on where it is looked for. */
const step = 1 / 64;

function stampsWith(drawn: readonly (readonly [number, string])[], rowsPerStamp: number, count = 3000): Float64Array {
  const at = new Map(drawn);
  const seconds = new Float64Array(count);
  let time = 17;
  let backFor = 0;
  for (let i = 0; i < count; i++) {
    if (i % rowsPerStamp === 0) time += step;
    const what = at.get(i);
    if (what === "restart") time = Math.max(0, time - 3);
    if (what === "hole") time += 2.5;
    if (what === "few back") backFor = 3;
    const isBack = what === "back" || backFor-- > 0;
    const before = seconds[i - 1] ?? time;
    seconds[i] = what === "missing" ? Number.NaN : what === "repeat" ? before : isBack ? time - 3.5 * step : time;
  }
  return seconds;
}

describe("stamps in parts", () => {
  test("are what they are at once, with few of them spoiled in any way", () => {
    fc.assert(
      fc.property(spots, windows, (drawn, sizes) => {
        const written = { ...plain, seconds: stampsWith(drawn, 1) };
        expect(byParts(written, sizes)).toEqual(atOnce(written));
      }),
      { numRuns: 400 },
    );
  });

  test("are what they are at once where many rows share one, spoiled ones among them", () => {
    let given = 0;
    fc.assert(
      fc.property(spots, windows, fc.integer({ min: 2, max: 150 }), (drawn, sizes, rowsPerStamp) => {
        const written = { ...plain, seconds: stampsWith(drawn, rowsPerStamp) };
        try {
          expect(byParts(written, [16, ...sizes])).toEqual(atOnce(written));
          given++;
        } catch (error) {
          if (!(error instanceof NotInParts)) throw error;
        }
      }),
      { numRuns: 400 },
    );
    expect(given).toBeGreaterThan(300);
  });

  test("of a clock that starts anew are what they are at once", () => {
    fc.assert(
      fc.property(spots, windows, fc.integer({ min: 15, max: 60 }), (drawn, sizes, wrap) => {
        const seconds = stampsWith(
          drawn.filter(([, what]) => what !== "restart"),
          1,
        ).map((time) => time % wrap);
        const written = { ...plain, seconds, wrap };
        expect(byParts(written, sizes)).toEqual(atOnce(written));
      }),
      { numRuns: 400 },
    );
  });

  test("of any kind are what they are at once, or are given up", () => {
    const any = fc.array(fc.oneof(fc.integer({ min: 0, max: 40 }), fc.constant(Number.NaN)), {
      minLength: 130,
      maxLength: 700,
    });
    let given = 0;
    fc.assert(
      fc.property(any, windows, fc.boolean(), (drawn, sizes, isWrapped) => {
        const written = { ...plain, seconds: Float64Array.from(drawn, (ms) => ms / 1000), wrap: isWrapped ? 0.041 : 0 };
        let got: Ordered | null = null;
        try {
          got = byParts(written, sizes);
        } catch (error) {
          if (!(error instanceof NotInParts)) throw error;
        }
        const { doubt: _, ...judge } = atOnce(written);
        if (!got) return;
        expect(got).toMatchObject(judge);
        given++;
      }),
      { numRuns: 300 },
    );
    expect(given).toBeGreaterThan(30);
  });

  test("are given up where a clock with holes of half its round starts anew later", () => {
    const seconds = Float64Array.from({ length: 1000 }, (_, i) =>
      i < 100 ? i / 10 : i < 800 ? 25 + i / 100 : i / 100,
    );
    expect(() => byParts({ ...plain, seconds, wrap: 40 }, [2])).not.toThrow();
    expect(() => byParts({ ...plain, seconds, wrap: 20 }, [2])).toThrow(NotInParts);
  });
});
