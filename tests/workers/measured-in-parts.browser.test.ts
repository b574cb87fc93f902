// A capture larger than the room in memory is measured out of storage. The judge is the same file read into memory.

import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { difference } from "../difference.ts";
import { isLongForm, ofKinds } from "../share.ts";
import { corrected, inTurn, large, open, small, text, withHole } from "./larger-files.ts";
import { clearCaptures, startPlayground } from "./playground.ts";

const sha256 = async (file: Blob) => new Uint8Array(await crypto.subtle.digest("SHA-256", await file.arrayBuffer()));

beforeEach(clearCaptures);
afterEach(clearCaptures);

const stamps = [
  ["of even steps", (i: number) => (i / 1000).toFixed(6)],
  ["of stamps with a hole", (i: number) => withHole(i + (i % 3) / 10)],
] as const;

describe("a capture larger than the room in memory", { timeout: 120_000 }, () => {
  test.each(ofKinds(["of even steps"], stamps))(
    "is measured on every sample, however long the span: %s",
    async (_, stamp) => {
      const shares: number[] = [];
      const measured = async (room: number) => {
        const { service } = startPlayground();
        await service.setRoom(room);
        const { take, span } = await open(service, text({ stamp }));
        const part = { take: { ...take, corrections: corrected }, span: { from: span.from + 3, to: span.to - 3 } };
        const onProgress = (share: number) => shares.push(share);
        const inverted = await service.measure({ ...part, limits: {} }, { ...inTurn, onProgress });
        return [inverted, await service.measure({ take, span, limits: {} }, inTurn)];
      };
      const judge = await measured(large);
      expect(shares).toEqual([]);
      expect(judge.every(({ ok }) => ok)).toBe(true);
      await clearCaptures();
      expect(difference(await measured(small), judge)).toBe(null);
    },
  );

  test("tells a crossing and a line-up from what lies around them", async () => {
    const asked = async (room: number) => {
      const { service } = startPlayground();
      await service.setRoom(room);
      const { take } = await open(service, text());
      const [front, rear] = [
        { take, channelId: "c2" },
        { take, channelId: "c3" },
      ];
      return {
        crossing: await service.firstCrossing({ ...front, after: 123.4, level: 0.45 }),
        none: await service.firstCrossing({ ...rear, after: 123.4, level: 0.1 }),
        lineUp: await service.lineUp({ suspect: front, reference: front, at: 150, reach: 3, guess: 0.817, most: 0.3 }),
      };
    };
    const judge = await asked(large);
    expect(judge).toMatchObject({
      crossing: { ok: true },
      none: { ok: true },
      lineUp: { ok: true },
    });
    await clearCaptures();
    expect(difference(await asked(small), judge)).toBe(null);
  });

  test.each(ofKinds(["of stamps with a hole"], stamps))(
    "is written as it would be out of memory, all of it and a part: %s",
    async (_, stamp) => {
      const shares: number[] = [];
      const written = async (room: number) => {
        const { service } = startPlayground();
        await service.setRoom(room);
        const { take, span } = await open(service, text({ stamp }));
        const request = { take: { ...take, corrections: corrected }, channelIds: ["c2", "c3"] };
        const onProgress = (share: number) => shares.push(share);
        const files = [
          await service.saveSpan({ ...request, span, format: "npy" }),
          await service.saveSpan({ ...request, span, format: "csv" }, { onProgress }),
          await service.saveSpan({ ...request, span: { from: 9.0005, to: 12.3 }, format: "csv" }),
        ];
        return Promise.all(files.map(async (one) => (one.ok ? sha256(one.value) : one.problem.what)));
      };
      const judge = await written(large);
      await clearCaptures();
      shares.length = 0;
      expect(await written(small)).toEqual(judge);
      expect(shares.length).toBeGreaterThan(3);
      expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    },
  );

  test("what is being written can be given up", async () => {
    const { service } = startPlayground();
    await service.setRoom(small);
    const { take, span } = await open(service, text());
    const giving = new AbortController();
    const request = { take, channelIds: ["c2", "c3"], span, format: "csv" as const };
    const given = await service.saveSpan(request, { signal: giving.signal, onProgress: () => giving.abort() });
    expect(given).toMatchObject({ ok: false, problem: { code: "cancelled" } });
    expect((await service.saveSpan({ ...request, span: { from: 9, to: 12 } })).ok).toBe(true);
  });

  // The judge has all samples. Times told from means have wider bounds, which hold those of the judge.
  test.runIf(isLongForm)("is judged as a whole on means of neighbouring samples, and says so", async () => {
    const shares: number[] = [];
    const wholeIn = async (room: number) => {
      const { service } = startPlayground();
      await service.setRoom(room);
      const { take } = await open(service, text({ rows: 300_000 }));
      const onProgress = (share: number) => shares.push(share);
      const outcome = await service.whole({ take, choices: {} }, { ...inTurn, onProgress });
      if (!outcome.ok) throw new Error(outcome.problem.what);
      return outcome.value;
    };
    const judge = await wholeIn(large);
    await clearCaptures();
    shares.length = 0;
    const found = await wholeIn(small);
    expect(shares.length).toBeGreaterThan(3);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.at(-1)).toBeLessThanOrEqual(1);
    expect(judge.means).toBeUndefined();
    expect(found.means).toEqual({ samples: 32, long: expect.closeTo(0.032, 6) });
    expect(found.findings.map(({ id, verdict }) => [id, verdict])).toEqual(
      judge.findings.map(({ id, verdict }) => [id, verdict]),
    );
    for (const side of ["front", "rear"] as const) {
      const [mine, theirs] = [found.sensors[side]!, judge.sensors[side]!];
      expect(mine.crossings.value).toBe(theirs.crossings.value);
      expect(mine.mean.value).toBeCloseTo(theirs.mean.value!, 4);
      expect(mine.amplitude.value).toBeCloseTo(theirs.amplitude.value!, 2);
    }
    const { front: mine, rear: quiet } = found.sensors;
    const { front: theirs, rear: quietToo } = judge.sensors;
    for (const name of ["frequency", "richToLean", "leanToRich"] as const) {
      expect(theirs![name]).toMatchObject({ grade: "measured", value: expect.any(Number) });
      expect(theirs![name].value).toBeGreaterThanOrEqual(mine![name].low!);
      expect(theirs![name].value).toBeLessThanOrEqual(mine![name].high!);
      // The rear swings slowly about 0.6 V: it never crosses 0.45 V, and never goes from level to level.
      expect(quietToo![name]).toMatchObject({ grade: "not-resolvable", value: null });
      expect(quiet![name]).toEqual(quietToo![name]);
    }
    expect(mine!.frequency.value).toEqual(expect.any(Number));
    // Transitions of 34 ms on means 32 ms long: their bounds are wider than they are.
    for (const name of ["richToLean", "leanToRich"] as const) {
      expect(mine![name]).toMatchObject({ value: null, because: expect.stringMatching(/wider than the time itself/) });
    }
  });
});
