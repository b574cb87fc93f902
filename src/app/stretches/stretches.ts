// The stretches of the recording: which one is looked at, and what the technician's hand says it really was.

import { type Accessor, createMemo } from "solid-js";
import type { Span, Stretch, StretchEdit, StretchKind } from "../../exhaust/terms/analysis.ts";
import { editStretch, resetStretch } from "../../job/edits/stretch-edits.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";

export interface Stretches {
  readonly list: Accessor<readonly Stretch[]>;
  /** The one that was gone to and is marked on the lanes, by whatever door; null when something else is marked. */
  readonly chosen: Accessor<Stretch | null>;
  go(stretch: Stretch): void;
  /** It was `kind`: one step of undo. The kind that was read takes a correction away. */
  correct(stretch: Stretch, kind: StretchKind): void;
}

export const { Context: StretchesContext, use: useStretches } = subject<Stretches>("Stretches");

export function createStretches({ bench, readings, shown }: Pick<Ground, "bench" | "readings" | "shown">): Stretches {
  const edits = createMemo(() => bench.state().stretchEdits ?? []);
  const list = createMemo(() => (readings.whole()?.stretches ?? []).map((one) => asSaid(one, edits())));
  return {
    list,
    chosen: createMemo(() => {
      const evidence = shown.evidence()?.evidence;
      if (!evidence || evidence.marks.length > 0) return null;
      return list().find((one) => isSame(one, evidence.span)) ?? null;
    }),
    go: (stretch) => shown.go(`stretch-${stretch.from}`, stretch),
    correct({ from, to, readAs }, kind) {
      bench.edit((state) =>
        kind === readAs ? resetStretch(state, { from, to }) : editStretch(state, { from, to, kind }),
      );
    },
  };
}

/** As the hand left it, before the recording has been read again. */
function asSaid(stretch: Stretch, edits: readonly StretchEdit[]): Stretch {
  const edit = edits.find((one) => isSame(one, stretch));
  if (edit?.kind === stretch.kind || (!edit && stretch.origin === "found")) return stretch;
  return edit ? { ...stretch, kind: edit.kind, origin: "user" } : { ...stretch, kind: stretch.readAs, origin: "found" };
}

const isSame = (a: Span, b: Span): boolean => a.from === b.from && a.to === b.to;
