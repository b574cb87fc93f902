// What the bench's lanes show: each kind of layer in turn lays its lines and bands on, under or between the lanes before
// it. A new kind is a file with a `LayerKind` and its place in `workbench.ts`; plot and paper draw it as it says.

import { type Accessor, createMemo } from "solid-js";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { CursorValue, LaneLook, Readout, TraceWindow } from "../../plot/stage/types.ts";
import { subject } from "../core/context.ts";

export type Windows = readonly TraceWindow[];

/** What lanes are drawn from: read only by who needs it, so that what does not stays as it is while the view moves. */
export interface Seen {
  windows(): ReadonlyMap<string, TraceWindow>;
  span(): Span;
  /** Null on the screen. */
  readonly paper: Paper | null;
}

export interface Paper {
  readonly span: Span;
  /** Columns. */
  readonly width: number;
  /** It can leave out again what the screen does not show, so that is laid as well. */
  readonly isOffered: boolean;
}

export interface LayerKind {
  lay(lanes: readonly LaneLook[], seen: Seen): readonly LaneLook[];
  /** Of its own lines in the view; `before` are those of the kinds before it. */
  windows?(before: Windows): Windows;
  /** Of its own lines on a paper. */
  windowsOver?(paper: Paper, before: Windows): Windows | Promise<Windows>;
  /** What its lines hold at an instant that is read out. */
  valuesAt?(time: number): readonly CursorValue[];
  /** The lanes' width, device pixels. */
  setWidth?(devicePixels: number): void;
  /** What a paper that shows it states of it, one sentence each. */
  statements?(): readonly string[];
}

/** Lanes as drawn over one span, for paper. */
export interface Laid {
  readonly lanes: readonly LaneLook[];
  readonly windows: Windows;
}

export interface Layers {
  readonly lanes: Accessor<readonly LaneLook[]>;
  readonly windows: Accessor<ReadonlyMap<string, TraceWindow>>;
  readonly readouts: Accessor<readonly Readout[]>;
  setWidth(devicePixels: number): void;
  over(paper: Paper): Promise<Laid>;
  readonly statements: Accessor<readonly string[]>;
}

export const { Context: LayersContext, use: useLayers } = subject<Layers>("The layers");

export interface OnView {
  readonly view: Accessor<Span>;
  /** With the values of the lanes' own channels. */
  readonly readouts: Accessor<readonly Readout[]>;
}

export function createLayers(kinds: readonly LayerKind[], { view, readouts }: OnView): Layers {
  const windows = createMemo(() =>
    byId(kinds.reduce<Windows>((before, kind) => joined(before, kind.windows?.(before)), [])),
  );
  return {
    windows,
    lanes: createMemo(() => laid(kinds, { windows, span: view, paper: null })),
    readouts: createMemo(() => readouts().map((one) => ({ ...one, values: [...one.values, ...others(one.time)] }))),
    setWidth: (pixels) => {
      for (const kind of kinds) kind.setWidth?.(pixels);
    },
    async over(paper) {
      let all: Windows = [];
      for (const kind of kinds) all = joined(all, await kind.windowsOver?.(paper, all));
      const map = byId(all);
      return { windows: all, lanes: laid(kinds, { windows: () => map, span: () => paper.span, paper }) };
    },
    statements: () => kinds.flatMap((kind) => kind.statements?.() ?? []),
  };

  function others(time: number): readonly CursorValue[] {
    return kinds.flatMap((kind) => kind.valuesAt?.(time) ?? []);
  }
}

const laid = (kinds: readonly LayerKind[], seen: Seen): readonly LaneLook[] =>
  kinds.reduce<readonly LaneLook[]>((lanes, kind) => kind.lay(lanes, seen), []);

const joined = (before: Windows, more: Windows = []): Windows => (more.length > 0 ? [...before, ...more] : before);

const byId = (windows: Windows) => new Map(windows.map((window) => [window.channelId, window]));
