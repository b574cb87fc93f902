import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { makeAutosave, type SaveState } from "../../src/job/storage/autosave.ts";

describe("makeAutosave", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  test("writes the last of many changes, once", async () => {
    const written: number[] = [];
    const states: SaveState[] = [];
    const autosave = makeAutosave<number>(
      async (v) => void written.push(v),
      (s) => states.push(s),
      100,
    );
    for (const value of [1, 2, 3]) autosave.note(value);
    await vi.advanceTimersByTimeAsync(200);
    expect(written).toEqual([3]);
    expect(states.at(-1)).toBe("saved");
  });

  test("writes at once when the page goes away", async () => {
    const written: number[] = [];
    const autosave = makeAutosave<number>(
      async (v) => void written.push(v),
      () => {},
      1e6,
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
    const autosave = makeAutosave(save, (s) => states.push(s), 1e6);
    autosave.note(1);
    await autosave.flush();
    expect(states.at(-1)).toBe("failed");
    fails = false;
    await autosave.flush();
    expect(written).toEqual([1]);
  });

  test("never writes two at a time", async () => {
    let open = 0;
    let most = 0;
    const save = async () => {
      most = Math.max(most, ++open);
      await vi.advanceTimersByTimeAsync(10);
      open--;
    };
    const autosave = makeAutosave<number>(save, () => {}, 1e6);
    const writes = [1, 2, 3].map((v) => {
      autosave.note(v);
      return autosave.flush();
    });
    await Promise.all(writes);
    expect(most).toBe(1);
  });
});
