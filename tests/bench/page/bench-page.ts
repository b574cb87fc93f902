// What the benchmarks run in the browser: the page's own client and workers, and their peers.

import { type CaptureClient, startCaptureClient } from "../../../workers/client.ts";
import type { CaptureSummary } from "../../../workers/protocol.ts";
import type { Floor } from "./floor.worker.ts";

let client: CaptureClient = startCaptureClient();

const chosen = (): File => (document.querySelector("#file") as HTMLInputElement).files![0]!;

/** Draws what there is on 1,500 device pixels, as the page does. */
function picture({ take, span, channels }: CaptureSummary) {
  return client.window({ take, channelIds: channels.map((channel) => channel.id), span, width: 1500 });
}

/** Milliseconds of a peer worker's one answer. */
function peer(worker: Worker, asked: unknown = chosen()): Promise<number> {
  return new Promise((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<number>) => resolve(data);
    worker.onerror = () => reject(new Error("the peer failed"));
    worker.postMessage(asked);
  });
}

/** Longest time between two ticks of the page while `work` runs, and all of them. */
async function frames(work: () => Promise<unknown>): Promise<number[]> {
  const ticks: number[] = [];
  let running = true;
  const tick = (now: number) => {
    ticks.push(now);
    if (running) requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
  await work();
  running = false;
  return ticks.slice(1).map((now, i) => now - ticks[i]!);
}

let last: CaptureSummary | null = null;

const bench = {
  /** Opens the chosen file: ms to the first picture, to all samples seen, and to the answer. */
  async open() {
    const started = performance.now();
    const since = () => performance.now() - started;
    let [first, full] = [Number.NaN, Number.NaN];
    const outcome = await client.open({ file: chosen(), name: chosen().name, choices: {} }, (done, total, partial) => {
      if (!partial) return;
      void picture(partial).then(() => {
        if (Number.isNaN(first)) first = since();
        if (done >= total) full = since();
      });
    });
    if (!outcome.ok) throw new Error(outcome.problem.what);
    last = outcome.value;
    await picture(last);
    const all = since();
    return { first: Number.isNaN(first) ? all : first, full: Number.isNaN(full) ? all : full, all, id: last.id };
  },
  kept: () => client.kept(last!.id),
  papa: () => peer(new Worker(new URL("./papa.worker.ts", import.meta.url), { type: "module" })),
  bytes: () => peer(new Worker(new URL("./bytes.worker.ts", import.meta.url), { type: "module" })),
  /** The bytes with one touch of columns of so many bytes, by one thread or by two with half of each. */
  async floor(columns: number, threads: 1 | 2): Promise<number> {
    const file = chosen();
    const took = Array.from({ length: threads }, (_, k) => {
      const part = file.slice(Math.floor((k * file.size) / threads), Math.floor(((k + 1) * file.size) / threads));
      const worker = new Worker(new URL("./floor.worker.ts", import.meta.url), { type: "module" });
      return peer(worker, { part, columns: 4 * Math.floor(columns / 4 / threads) } satisfies Floor);
    });
    return Math.max(...(await Promise.all(took)));
  },
  windows: () => peer(new Worker(new URL("./windows.worker.ts", import.meta.url), { type: "module" })),
  async measure() {
    const { take, span, channels } = last!;
    // A WAV names no sensors: its first two channels are front and rear.
    const front = { role: "front-o2", unit: "V", gain: 1, offset: 0 } as const;
    const corrections = { [channels[0]!.id]: front, [channels[1]!.id]: { ...front, role: "rear-o2" as const } };
    const started = performance.now();
    const told: number[] = [];
    let took = 0;
    const deltas = await frames(async () => {
      const request = { take: { ...take, corrections }, span, limits: {} };
      const onProgress = (done: number, total: number) => told.push(done / total);
      const outcome = await client.measure(request, { urgency: "span", onProgress });
      if (!outcome.ok) throw new Error(outcome.problem.what);
      took = performance.now() - started;
    });
    return { took, deltas, told: told.length };
  },
  /** Milliseconds from the page's own start to the first picture of a kept capture. */
  async reopen(id: string) {
    const outcome = await client.reopen(id, {});
    if (!outcome.ok) throw new Error(outcome.problem.what);
    last = outcome.value;
    const windows = await picture(last);
    if (windows.some(({ times }) => times.length < 100)) throw new Error("nothing was drawn");
    return performance.now();
  },
  restart() {
    client.close();
    client = startCaptureClient();
  },
};
export type BenchPage = typeof bench;
Object.assign(globalThis, { bench });
