import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { makeAutosave, type SaveState } from "../../src/job/storage/autosave.ts";

const never = { delay: 1e6, longestDelay: 1e6, retry: 1e6, longestRetry: 1e6 };

describe("makeAutosave", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  test("writes the last of many changes, once", async () => {
    const written: number[] = [];
    const states: SaveState[] = [];
    const autosave = makeAutosave<number>(
      async (v) => void written.push(v),
      (s) => states.push(s),
      { delay: 100, longestDelay: 500, retry: 2000, longestRetry: 8000 },
    );
    for (const value of [1, 2, 3]) autosave.note(value);
    await vi.advanceTimersByTimeAsync(200);
    expect(written).toEqual([3]);
    expect(states.at(-1)).toBe("saved");
  });

  test("writes now and then while changes follow each other without a pause", async () => {
    const written: number[] = [];
    const autosave = makeAutosave<number>(
      async (v) => void written.push(v),
      () => {},
      { ...never, delay: 100, longestDelay: 500 },
    );
    for (let value = 0; value < 22; value++) {
      autosave.note(value);
      await vi.advanceTimersByTimeAsync(50);
    }
    expect(written).toEqual([9, 19]); // 0.5 s after the first that waits
    await vi.advanceTimersByTimeAsync(100);
    expect(written.at(-1)).toBe(21);
  });

  test("writes at once when the page goes away", async () => {
    const written: number[] = [];
    const autosave = makeAutosave<number>(
      async (v) => void written.push(v),
      () => {},
      never,
    );
    autosave.note(7);
    await autosave.flush();
    expect(written).toEqual([7]);
  });

  test("keeps a value whose write failed, and writes it next time", async () => {
    let fails = true;
    const written: number[] = [];
    const states: SaveState[] = [];
    const save = async (v: number) => {
      if (fails) throw new Error("full");
      written.push(v);
    };
    const autosave = makeAutosave(save, (s) => states.push(s), never);
    autosave.note(1);
    expect(await autosave.flush()).toBe(false);
    expect(states.at(-1)).toBe("failed");
    fails = false;
    expect(await autosave.flush()).toBe(true);
    expect(written).toEqual([1]);
  });

  test("tries again by itself while it fails, less and less often, and keeps the last value", async () => {
    const tried: number[] = [];
    const save = async (v: number) => {
      tried.push(v);
      if (tried.length < 4) throw new Error("full");
    };
    const states: SaveState[] = [];
    const autosave = makeAutosave(save, (s) => states.push(s), {
      delay: 100,
      longestDelay: 500,
      retry: 1000,
      longestRetry: 2000,
    });
    autosave.note(1);
    await vi.advanceTimersByTimeAsync(100);
    expect(states.at(-1)).toBe("failed");
    await vi.advanceTimersByTimeAsync(1000);
    expect(tried).toEqual([1, 1]);
    await vi.advanceTimersByTimeAsync(1999);
    expect(tried).toEqual([1, 1]);
    await vi.advanceTimersByTimeAsync(1);
    expect(tried).toEqual([1, 1, 1]);
    await vi.advanceTimersByTimeAsync(2000);
    expect(states.at(-1)).toBe("saved");
    await vi.advanceTimersByTimeAsync(60_000);
    expect(tried).toHaveLength(4);
  });

  test("writes no more what was given up", async () => {
    const written: number[] = [];
    const autosave = makeAutosave<number>(
      async (v) => void written.push(v),
      () => {},
    );
    autosave.note(1);
    autosave.drop();
    expect(await autosave.flush()).toBe(true);
    await vi.advanceTimersByTimeAsync(10_000);
    expect(written).toEqual([]);
  });

  test("never writes two at a time", async () => {
    let open = 0;
    let most = 0;
    const save = async () => {
      most = Math.max(most, ++open);
      await vi.advanceTimersByTimeAsync(10);
      open--;
    };
    const autosave = makeAutosave<number>(save, () => {}, never);
    const writes = [1, 2, 3].map((v) => {
      autosave.note(v);
      return autosave.flush();
    });
    await Promise.all(writes);
    expect(most).toBe(1);
  });
});
