// A job bundle of 200 MB packed and unpacked: the streaming library against fflate in memory.

import { unzipSync, zipSync } from "fflate";
import { packEntries, unpackEntries } from "../../src/capture/archives/zip-entries.ts";
import { type Bench, ms } from "./bench.ts";

const megabytes = 100;

/** Text of a recording, and bytes that do not pack. */
function files(): Readonly<Record<string, Uint8Array<ArrayBuffer>>> {
  const line = (i: number) => `${(i / 1000).toFixed(3)},${((i * 7919) % 1000) / 1000},0.6${i % 97}\n`;
  const piece = new TextEncoder().encode(Array.from({ length: 50_000 }, (_, i) => line(i)).join(""));
  const text = new Uint8Array(megabytes * 1e6).map((_, i) => piece[i % piece.length]!);
  let state = 1;
  const random = new Uint8Array(megabytes * 1e6).map(() => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state >>> 24;
  });
  return { "a.csv": text, "b.wav": random };
}

async function timed<T>(work: () => T | Promise<T>): Promise<{ readonly value: T; readonly ms: number }> {
  const from = performance.now();
  const value = await work();
  return { value, ms: performance.now() - from };
}

export const bench: Bench = {
  name: "packing",
  async run() {
    const entries = files();
    const limits = { named: { "a.csv": 2e8, "b.wav": 2e8 }, others: 0 };
    const ours = await timed(() => packEntries(entries));
    const theirs = await timed(() => zipSync(entries, { level: 1 }));
    const unpacked = await timed(() => unpackEntries(ours.value, limits));
    const peer = await timed(() => unzipSync(theirs.value));
    return [
      {
        what: "job bundle of 200 MB packed as a stream, Node",
        budget: "<= 2x fflate, in constant memory",
        figure: ms(ours.ms),
        peer: `fflate ${ms(theirs.ms)}`,
        ratio: `${(ours.ms / theirs.ms).toFixed(2)}x`,
        holds: ours.ms <= 2 * theirs.ms,
      },
      {
        what: "the same unpacked, checksums looked at",
        budget: "<= 2x fflate, which looks at none",
        figure: ms(unpacked.ms),
        peer: `fflate ${ms(peer.ms)}`,
        ratio: `${(unpacked.ms / peer.ms).toFixed(2)}x`,
        holds: unpacked.ms <= 2 * peer.ms,
      },
    ];
  },
};
