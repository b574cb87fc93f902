import { describe, expect, test } from "vitest";
import { ProblemError } from "../../src/problem.ts";
import { MeasuringQueue, type Thread } from "../../workers/measuring/queue.ts";
import type { Urgency } from "../../workers/protocol.ts";

/** Threads that say what they were told; work ends when the test says so. */
function queueOf(count: number) {
  const told: string[] = [];
  const ends = new Map<string, (value: string) => void>();
  const threads = Array.from({ length: count }, (_, k) => ({ name: `${k}`, stop: () => told.push(`stop ${k}`) }));
  const queue = new MeasuringQueue<Thread & { readonly name: string }>(threads);
  const run = (
    name: string,
    urgency: Urgency,
    { about = name, signal }: { about?: string; signal?: AbortSignal } = {},
  ) =>
    queue.run<string>({
      about,
      urgency,
      signal,
      work: (thread) => {
        told.push(`${name} on ${thread.name}`);
        return new Promise((done) => ends.set(name, done));
      },
    });
  const end = async (name: string) => {
    ends.get(name)!(`${name} measured`);
    await new Promise((resume) => setTimeout(resume));
  };
  return { run, end, told };
}

describe("the queue of what is measured", () => {
  test("takes the most urgent first, then what came first", async () => {
    const { run, end, told } = queueOf(1);
    const all = [run("a", "answer"), run("beside", "beside"), run("span", "span"), run("b", "answer")];
    for (const name of ["a", "b", "span", "beside"]) await end(name);
    expect(told).toEqual(["a on 0", "b on 0", "span on 0", "beside on 0"]);
    expect(await Promise.all(all)).toEqual(["a measured", "beside measured", "span measured", "b measured"]);
  });

  test("lets the less urgent wait again where no thread is free, and answers it after all", async () => {
    const { run, end, told } = queueOf(2);
    const beside = run("beside", "beside");
    const span = run("span", "span");
    const answer = run("answer", "answer");
    expect(told).toEqual(["beside on 0", "span on 1", "stop 0", "answer on 0"]);
    await end("answer");
    await end("beside");
    await end("span");
    expect(told.at(-1)).toBe("beside on 0");
    expect(await Promise.all([beside, span, answer])).toEqual(["beside measured", "span measured", "answer measured"]);
  });

  test("gives up what a signal names, under way or waiting, and nothing else", async () => {
    const { run, end, told } = queueOf(1);
    const [first, second] = [new AbortController(), new AbortController()];
    const underWay = run("under way", "span", { signal: first.signal });
    const waiting = run("waiting", "span", { signal: second.signal });
    const last = run("last", "span");
    second.abort();
    first.abort();
    await expect(underWay).rejects.toThrow(ProblemError);
    await expect(waiting).rejects.toMatchObject({ problem: { code: "cancelled" } });
    await end("last");
    expect(await last).toBe("last measured");
    expect(told).toEqual(["under way on 0", "stop 0", "last on 0"]);
  });

  test("goes back to the thread that knows the subject", async () => {
    const { run, end, told } = queueOf(2);
    const both = [run("one", "span", { about: "a" }), run("two", "span", { about: "b" })];
    await end("one");
    await end("two");
    const again = run("three", "span", { about: "b" });
    await end("three");
    await Promise.all([...both, again]);
    expect(told.at(-1)).toBe("three on 1");
  });

  test("tells what went wrong, and goes on with the next", async () => {
    const threads = [{ stop: () => {} }];
    const queue = new MeasuringQueue(threads);
    const task = { about: "a", urgency: "span" } as const;
    const wrong = queue.run({ ...task, work: () => Promise.reject(new RangeError("a fault")) });
    const right = queue.run({ ...task, work: async () => 1 });
    await expect(wrong).rejects.toThrow("a fault");
    expect(await right).toBe(1);
  });
});
