// An in-memory capture service for component tests: a made-up recording with two lift-offs, and readings of fixed value.
// Nothing here is a check of numbers; those have their own tests.

import { asRead, type Corrections } from "../../src/capture/model/take.ts";
import type { LiftOff, Sensor, Span, SpanReadings } from "../../src/exhaust/terms/analysis.ts";
import type { Problem } from "../../src/problem.ts";
import { measured, notResolvable, type Reading } from "../../src/signal/numbers/reading.ts";
import type { CaptureService, CaptureSummary, ChannelSummary, ChannelWindow } from "../../workers/protocol.ts";

export const duration = 60;
const step = 0.005;
const falls = [20, 40] as const;
const delay = 0.35;

const front = (t: number) => (inCut(t, 0) ? 0.05 : Math.sin(9 * t) > 0 ? 0.85 : 0.12);
const rear = (t: number) => (inCut(t, delay) ? 0.06 : 0.7 + 0.02 * Math.sin(2 * t));
const inCut = (t: number, late: number) => falls.some((fall) => t >= fall + late && t < fall + 4 + late);
const throttle = (t: number) => (falls.some((fall) => t >= fall - 4 && t < fall) ? 95 : 14);
const speed = (t: number) => 2200 + 400 * Math.sin(t / 3);
const shapes: Readonly<Record<string, (t: number) => number>> = { c1: front, c2: rear, c3: throttle, c4: speed };

const about = (value: number, give: number, unit: Reading["unit"]) =>
  measured(value, [value - give, value + give], unit);

function channel(id: string, name: string, unit: string, role: ChannelSummary["role"]): ChannelSummary {
  const rate = measured(1 / step, [1 / step, 1 / step], "Hz");
  const base = { id, name, unit, fileUnit: unit, role, bank: 1 as const, polled: false };
  return { ...base, samples: duration / step, rate, from: 0, to: duration, range: [0, 1] };
}

export const summary: CaptureSummary = {
  id: "f".repeat(64),
  take: asRead("f".repeat(64), {}),
  name: "made-up.csv",
  size: 1000,
  format: "comma-separated text",
  startedAt: null,
  span: { from: 0, to: duration },
  channels: [
    channel("c1", "Sensor 1", "V", "front-o2"),
    channel("c2", "Sensor 2", "V", "rear-o2"),
    channel("c3", "Throttle", "%", "throttle"),
    channel("c4", "Engine speed", "1/min", "engine-speed"),
  ],
  remarks: [{ text: "2 rows without a number were left out", where: "line 12", count: 2 }],
  warnings: [],
};

const sensor: Sensor = {
  frequency: about(1.42, 0.03, "Hz"),
  amplitude: about(0.77, 0.01, "V"),
  minimum: about(0.1, 0.01, "V"),
  maximum: about(0.87, 0.01, "V"),
  mean: about(0.5, 0.01, "V"),
  crossings: about(24, 0, "1"),
  crossingsPer10s: about(20, 0.5, "1"),
  richShare: about(52, 1, "%"),
  richToLean: about(0.042, 0.003, "s"),
  leanToRich: notResolvable("s", "The sampling is too slow; 200 samples/s would do."),
};

const liftOffs: readonly LiftOff[] = falls.map((at, i) => ({
  id: String(i + 1),
  at,
  frontFall: about(at, step / 2, "s"),
  rearFall: about(at + delay, step / 2, "s"),
  delay: about(delay, step, "s"),
  storedOxygen: about(0.9, 0.1, "g"),
  fuelCut: "likely",
  airFlow: 11,
  engineSpeed: 2400,
  rejected: null,
  setAside: null,
  origin: "found",
  fuelReturn: about(at + 4, step / 2, "s"),
  richAgain: about(0.2, step, "s"),
  corrected: null,
  rearSwitch: about(0.05, step, "s"),
  valid: true,
  remarks: ["The rear was rich before."],
}));

export interface FakeService extends CaptureService {
  /** Corrections that the whole was measured with, as it was asked for. */
  readonly corrections: Corrections[];
  /** The next `open` waits for this, or fails with this problem; the look at the file before it lasts until `look`. */
  behave(next: {
    readonly problem?: Problem;
    readonly wait?: Promise<void>;
    readonly look?: Promise<void>;
    readonly summary?: CaptureSummary;
  }): void;
  /** The whole, and every span, is refused from now on. */
  refuse(problem: Problem): void;
  /** The whole is read when this is over; by a third until then. */
  dawdleWhole(wait: Promise<void>): void;
  /** Whether a span is measured until that is given up; it is said to be done by 40 % then. */
  dawdle(slow: boolean): void;
  /** Spans that were asked for. */
  readonly spans: Span[];
}

export function fakeService(): FakeService {
  let next: Parameters<FakeService["behave"]>[0] = {};
  let held: CaptureSummary | null = null;
  let refused: Problem | null = null;
  let cancel: ((problem: Problem) => void) | null = null;
  let isSlow = false;
  let wholeWait: Promise<void> | null = null;
  const corrections: Corrections[] = [];
  const spans: Span[] = [];
  return {
    corrections,
    spans,
    dawdle(slow) {
      isSlow = slow;
    },
    dawdleWhole(wait) {
      wholeWait = wait;
    },
    refuse(problem) {
      refused = problem;
    },
    behave(wanted) {
      next = wanted;
    },
    async open({ name, file }, onProgress) {
      const { problem, wait, summary: other } = next;
      next = {};
      onProgress(file.size / 2, file.size, { ...summary, id: "so-far", take: asRead("so-far", {}), name });
      const stopped = new Promise<Problem>((done) => {
        cancel = done;
      });
      const why = await Promise.race([wait?.then(() => null) ?? null, stopped]);
      if (why ?? problem) return { ok: false, problem: (why ?? problem)! };
      held = { ...(other ?? summary), name };
      return { ok: true, value: held };
    },
    async cancelOpen() {
      cancel?.({
        code: "cancelled",
        what: "The file was not opened: reading was cancelled.",
        remedy: "Open it again.",
      });
    },
    async reopen() {
      return held ? { ok: true, value: held } : { ok: false, problem: gone };
    },
    sha256: async (captureId) => ({ ok: true, value: captureId }),
    wholeBefore: async () => null,
    firstLook: async () => ({ ok: true, value: null }),
    healthy: async () => ({ ok: false, problem: gone }),
    comparable: async () => ({ ok: false, problem: gone }),
    lineUp: async () => ({ ok: false, problem: gone }),
    lineUpRun: async () => ({ ok: false, problem: gone }),
    firstCrossing: async () => ({ ok: false, problem: gone }),
    kept: async () => null,
    file: async () => new Blob(["time,v\n0,1\n"]),
    wholeFile: async () => ({ ok: false, problem: gone }),
    stored: async () => [],
    removeStored: async () => {},
    forget: async () => {},
    warnings: async () => held?.warnings ?? [],
    window: async ({ channelIds, span, width }) => channelIds.map((id) => windowOf(id, span.from, span.to, width)),
    valuesAt: async (_, ids, time) =>
      ids.map((channelId) => ({ channelId, value: shapes[channelId]!(time), between: true })),
    async snap({ near, channelIds }) {
      const time = Math.round(near);
      return { channelId: channelIds[0]!, time, value: 0.45, low: time - step, high: time + step };
    },
    async preview() {
      await next.look;
      return {
        format: "comma-separated text",
        columns: [],
        rows: [],
        written: [],
        assumed: null,
        questions: [],
        members: [],
        problem: null,
        remarks: [],
        likeness: "",
      };
    },
    rehearse: async () => {},
    saveSpan: async () => ({ ok: true, value: new Blob(["time\n"]) }),
    async measure({ span }, { signal, onProgress }) {
      spans.push(span);
      if (isSlow) {
        onProgress?.(0.4, 1);
        await new Promise<void>((done) => {
          signal?.addEventListener("abort", () => done());
        });
        // A word that was on its way already.
        setTimeout(() => onProgress?.(0.5, 1), 20);
        return { ok: false, problem: { code: "cancelled", what: "Given up.", remedy: "Nothing to do." } };
      }
      if (refused) return { ok: false, problem: refused };
      const value: SpanReadings = {
        span,
        sensors: { front: sensor, rear: sensor },
        activity: null,
        evidence: {
          "front.frequency": { span, marks: [{ channelId: "c1", time: 1, value: 0.45 }], levels: [0.45], count: 1 },
          "front.richToLean": { span: { from: 19, to: 21 }, marks: [], levels: [0.3, 0.6], count: 0 },
        },
      };
      return { ok: true, value };
    },
    async whole({ take, choices: { edits = [] } }, { onProgress }) {
      corrections.push(take.corrections);
      if (wholeWait) onProgress?.(1, 3);
      await wholeWait;
      if (refused) return { ok: false, problem: refused };
      const shown = liftOffs.map((one) => {
        const edit = edits.find((e) => e.kind === "reject" && e.id === one.id);
        return edit?.kind === "reject" ? { ...one, rejected: edit.because, setAside: "hand" as const } : one;
      });
      const liftOff = {
        delay: about(delay, 0.01, "s"),
        storedOxygen: about(0.9, 0.1, "g"),
        richAgain: about(0.2, 0.01, "s"),
        spread: 0.01,
        more: 0,
      };
      const sensors = { front: sensor, rear: sensor };
      const warmth = { hotFrom: 0, told: "likely", says: "" } as const;
      const flowPicture = { along: null, points: [], says: "" };
      const nothing = {
        stretches: [],
        whole: null,
        wholeCuts: { count: 0, seconds: 0, isOpen: false },
        findings: [],
        awake: { front: null, rear: null },
        warmth,
        flowPicture,
        store: null,
        storePerLitre: null,
        storeStudy: null,
      };
      return { ok: true, value: { bank: 1, sensors, liftOffs: shown, liftOff, ...nothing } };
    },
  };
}

function windowOf(channelId: string, from: number, to: number, width: number): ChannelWindow {
  const times = Float64Array.from({ length: width }, (_, i) => from + ((to - from) * i) / width);
  return { channelId, times, values: times.map(shapes[channelId]!), dense: false };
}

const gone: Problem = {
  code: "unreadable",
  what: "This recording is not at hand any more.",
  remedy: "Open its file again.",
};
