// Spans measured part by part, whether their samples are in memory or in storage, and how far that has got.

import type { AnyChannel, Bank, Capture } from "../../src/capture/model/capture.ts";
import { measureLevels } from "../../src/exhaust/activity/channel-levels.ts";
import { measurePair } from "../../src/exhaust/activity/pair.ts";
import type { Span, SpanReadings } from "../../src/exhaust/terms/analysis.ts";
import { type LimitOverrides, limitsInForce } from "../../src/exhaust/terms/limits.ts";
import { type Problem, ProblemError } from "../../src/problem.ts";
import { reelOver } from "../../src/signal/series/reel.ts";
import { indexAt } from "../../src/signal/series/series.ts";
import { plainWriting, writeAs } from "../../src/signal/written/writing.ts";
import { KeptBody } from "../held/kept-body.ts";
import { partLength } from "../held/stored-reel.ts";
import type { StoredChannels } from "../held/taken-capture.ts";
import type { OnProgress, Written } from "../protocol.ts";
import { captureStore } from "../store/capture-store.ts";
import { seldom } from "./progress.ts";

export interface PartsRule extends Written {
  readonly bank: Bank;
  readonly span: Span;
  readonly limits: LimitOverrides;
  readonly withLevels?: boolean;
  /** Told the share that is done, and 1, a few times a second at most. */
  readonly onProgress: OnProgress;
}

/** Readings of sensors in memory. */
export function measureInMemory({ channels }: Capture, rule: PartsRule): SpanReadings {
  const { onRead, expect } = progress(rule);
  const read = channels.map((channel) => ({ ...channel, series: reelOver(channel.series, partLength, onRead) }));
  return measured(read, rule, expect);
}

/** Readings of sensors in the browser's storage. @throws ProblemError "unreadable" where it does not hold them any more. */
export async function measureInStorage({ id, channels }: StoredChannels, rule: PartsRule): Promise<SpanReadings> {
  const found = await captureStore.find(id);
  if (!found) throw new ProblemError(gone);
  const body = new KeptBody(found);
  try {
    const { onRead, expect } = progress(rule);
    const read = channels.map(({ correction, ...channel }) => ({
      ...channel,
      series: body.reel(channel.id, correction, onRead),
    }));
    return measured(read, rule, expect);
  } finally {
    body.close();
  }
}

function measured(
  channels: readonly AnyChannel[],
  { bank, span, limits, withLevels, writing = plainWriting }: PartsRule,
  expect: (samples: number) => void,
): SpanReadings {
  const counts = channels.map(({ series: { time } }) => indexAt(time, span.to) - indexAt(time, span.from));
  expect(counts.reduce((sum, count) => sum + count, 0));
  writeAs(writing);
  const pair = measurePair({ channels }, bank, span, limitsInForce(limits));
  if (!withLevels) return pair;
  const { levels, evidence } = measureLevels(channels, span);
  return { ...pair, levels, evidence: { ...pair.evidence, ...evidence } };
}

/** So often, about, samples are read for all readings of a pair: for the progress only. */
const usualReads = 36;

function progress({ onProgress }: PartsRule) {
  let [done, expected] = [0, Infinity];
  const tell = seldom(onProgress);
  return {
    expect(samples: number): void {
      expected = samples * usualReads;
    },
    onRead(count: number): void {
      done += count;
      tell(Math.min(0.99, done / expected));
    },
  };
}

const gone: Problem = {
  code: "unreadable",
  what: "The browser's storage does not hold this recording any more.",
  remedy: "Open its file again; the job's marks on it are still there.",
};
