// How the recording on the desk is looked at: the saved state of its bench, with undo and redo for all of it.

import { type Accessor, createMemo, createSignal } from "solid-js";
import { defaultBench } from "../../job/edits/bench.ts";
import { begin, commit, type History, redo, settleStep, undo } from "../../job/edits/history.ts";
import { keepBench } from "../../job/edits/make.ts";
import type { BenchState, CaptureRecord } from "../../job/record/job.ts";
import type { JobDesk } from "./job-desk.ts";

export interface Bench {
  /** The record of the recording on the desk; null on an empty bench. */
  readonly record: Accessor<CaptureRecord | null>;
  readonly state: Accessor<BenchState>;
  /** @param key joins edits that follow each other with the same key into one step. */
  edit(change: (bench: BenchState) => BenchState, key?: string): void;
  /** Ends a joined step. */
  settle(): void;
  undo(): void;
  redo(): void;
  readonly canUndo: Accessor<boolean>;
  readonly canRedo: Accessor<boolean>;
}

const emptyBench = defaultBench([]);

export function createBench(desk: JobDesk, captureId: Accessor<string | null>): Bench {
  const record = createMemo(() => desk.job().captures.find((c) => c.id === captureId()) ?? null);
  const [histories, setHistories] = createSignal<Readonly<Record<string, History<BenchState>>>>({});

  /** The job is the truth: when it changed by another way (another tab, another job), its history begins anew. */
  const history = createMemo((): History<BenchState> => {
    const current = record();
    const kept = current && histories()[current.id];
    if (kept && kept.present === current.bench) return kept;
    return begin(current?.bench ?? emptyBench);
  });
  const put = (next: History<BenchState>) => {
    const current = record();
    if (!current || next === history()) return;
    setHistories({ ...histories(), [current.id]: next });
    if (next.present !== current.bench) desk.change((job, at) => keepBench(job, at, current.id, next.present));
  };
  return {
    record,
    state: createMemo(() => record()?.bench ?? emptyBench),
    edit: (change, key) => put(commit(history(), change(history().present), key ?? null)),
    settle: () => put(settleStep(history())),
    undo: () => put(undo(history())),
    redo: () => put(redo(history())),
    canUndo: () => history().past.length > 0,
    canRedo: () => history().future.length > 0,
  };
}
