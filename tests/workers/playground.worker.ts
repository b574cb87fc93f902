// The real service and store, with the real readers and, for bare.bin, one of bare numbers: little-endian singles at 1,000 per second, one front sensor.

import { expose } from "comlink";
import type { Capture } from "../../src/capture/model/capture.ts";
import { readCapture } from "../../src/capture/readers.ts";
import { measurePair } from "../../src/exhaust/activity/pair.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { comparableOf } from "../../src/exhaust/comparing/comparable.ts";
import { firstLook } from "../../src/exhaust/first-look.ts";
import { healthyTrace } from "../../src/exhaust/healthy-trace.ts";
import { limitsInForce } from "../../src/exhaust/terms/limits.ts";
import type { Engine } from "../../workers/held/engine.ts";
import { measureInStorage } from "../../workers/measuring/measured-in-parts.ts";
import { sha256Of } from "../../workers/naming/sha256.ts";
import { createCaptureService } from "../../workers/service/capture-service.ts";
import { sentService } from "../../workers/service/tickets.ts";
import type { Version } from "../../workers/store/answers.ts";
import { captureStore } from "../../workers/store/capture-store.ts";

/**
 * Makes the browser's storage refuse from now on, say that it has 5 MB left, not answer when the next file is opened for
 * writing, lose a folder under way, or come no further than the next piece that is written; or to have, as in
 * Firefox and WebKit, no handles but those that keep all others from the file; or to be absent, as in WebKitGTK.
 */
function refuse(how: "denied" | "full" | "narrow" | "mute" | "stalled" | "vanishing" | "alone" | "absent"): void {
  if (how === "stalled") stallAfterWrite();
  else if (how === "absent") Object.defineProperty(navigator, "storage", { value: undefined });
  else if (how === "alone") handlesForOneAlone();
  else if (how === "narrow") navigator.storage.estimate = async () => ({ quota: 5e6, usage: 0 });
  else if (how === "mute") muteOnce();
  else if (how === "vanishing") vanishWhenLookedInto();
  else if (how === "denied")
    navigator.storage.getDirectory = () => Promise.reject(new DOMException("no", "SecurityError"));
  else syncHandle.FileSystemSyncAccessHandle.prototype.write = full;
}

function handlesForOneAlone(): void {
  delete (syncHandle.FileSystemSyncAccessHandle.prototype as { mode?: string }).mode;
  const opener = FileSystemFileHandle.prototype as unknown as { createSyncAccessHandle(): unknown };
  const { createSyncAccessHandle } = opener;
  opener.createSyncAccessHandle = function () {
    return createSyncAccessHandle.call(this);
  };
}

function muteOnce(): void {
  const opener = FileSystemFileHandle.prototype as unknown as { createSyncAccessHandle(...words: unknown[]): unknown };
  const { createSyncAccessHandle } = opener;
  opener.createSyncAccessHandle = () => {
    opener.createSyncAccessHandle = createSyncAccessHandle;
    return new Promise(() => {});
  };
}

/** A folder with this in its name is gone by the time it is looked into. */
function vanishWhenLookedInto(): void {
  const { prototype } = FileSystemDirectoryHandle;
  const { values } = prototype;
  prototype.values = function () {
    if (this.name.includes("vanishing")) throw new DOMException("gone", "NotFoundError");
    return values.call(this);
  };
}

/** Between two pieces the store waits for a timer: none comes any more. */
function stallAfterWrite(): void {
  const { prototype } = syncHandle.FileSystemSyncAccessHandle;
  const { write } = prototype;
  prototype.write = function (...words) {
    self.setTimeout = (() => 0) as unknown as typeof setTimeout;
    return write.apply(this, words);
  };
}

interface Handle {
  read(...words: unknown[]): number;
  write(...words: unknown[]): number;
}
const syncHandle = self as unknown as { FileSystemSyncAccessHandle: { prototype: Handle } };

/** How often storage was read so far. */
let reads = 0;
const { read } = syncHandle.FileSystemSyncAccessHandle.prototype;
syncHandle.FileSystemSyncAccessHandle.prototype.read = function (...words) {
  reads++;
  return read.apply(this, words);
};

function full(): never {
  throw new DOMException("no", "QuotaExceededError");
}

const engine = {
  room: undefined as number | undefined,
  version: { sources: "1", shapes: "1" } as Version | null,
  async read(source, choices, report) {
    if (source.name !== "bare.bin") return readCapture(source, choices, report);
    const bytes = await source.read(0, source.size);
    const samples = new Float32Array(bytes.buffer as ArrayBuffer);
    const even = { kind: "even" as const, start: 0, step: 0.001, count: samples.length };
    const stamps = Float64Array.from(samples, (_, i) => i * 0.001 + (i > samples.length / 2 ? 10 : 0));
    const labels = { bank: 1, unit: "V", fileUnit: "V", polled: false } as const;
    const channels: Capture["channels"] = [
      { id: "c1", name: "front", role: "front-o2", series: { time: even, samples }, ...labels },
      { id: "c2", name: "rear", role: "rear-o2", series: { time: { kind: "stamped", stamps }, samples }, ...labels },
    ];
    return { name: source.name, format: "bare numbers", startedAt: null, remarks: [], channels };
  },
  nameOf: ({ source }, signal) => sha256Of(source, signal),
  warningsOf: () => [],
  measure: async ({ bank, bring }, { span, limits }) =>
    measurePair(await bring(() => {}), bank, span, limitsInForce(limits)),
  measureStored: (stored, bank, rule, { onProgress = () => {} }) =>
    measureInStorage(stored, { bank, ...rule, onProgress }),
  async whole({ bank, bring }, choices, { onProgress = () => {} }) {
    wholes++;
    const capture = await bring((share) => onProgress(0.3 * share, 1));
    return analyse(capture, { ...choices, bank }, (share) => onProgress(0.3 + 0.7 * share, 1));
  },
  firstLook: async ({ bank, bring }, choices) => firstLook(await bring(() => {}), { ...choices, bank }),
  async healthy({ bank, bring }, { choices, fitted }) {
    return healthyTrace(await bring(() => {}), { ...choices, bank }, fitted);
  },
  async comparable({ bank, bring }, choices, _turn, known) {
    const capture = await bring(() => {});
    return comparableOf(capture, known ?? analyse(capture, { ...choices, bank }), choices.limits);
  },
  store: {
    ...captureStore,
    async find(id) {
      const found = await captureStore.find(id);
      finds++;
      return found;
    },
  },
} satisfies Engine;

/** How often columns were found in storage so far. */
let finds = 0;

/** How often a whole was measured so far. */
let wholes = 0;

function setVersion(version: Version): void {
  engine.version = version;
}

/** From now on captures may hold this many bytes in memory. */
function setRoom(bytes: number): void {
  engine.room = bytes;
}

expose({
  ...sentService(createCaptureService(engine)),
  refuse,
  setRoom,
  reads: () => reads,
  wholes: () => wholes,
  finds: () => finds,
  setVersion,
  sweep: () => captureStore.sweep(),
});
// Dies when a message says so, as one that ran out of memory does: without a word.
self.addEventListener("message", ({ data }) => {
  if (data === "die") self.close();
});
