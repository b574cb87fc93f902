// What the parts of one dimension on the traces are given.

import type { Stage } from "../stage/stage.ts";
import type { DimensionEvent, DimensionLook, DimensionPart, TraceWindow } from "../stage/types.ts";
import type { LaidOut } from "./dimension-layout.ts";
import type { Moved } from "./moves.ts";

export interface DimensionProps {
  readonly look: DimensionLook;
  readonly laid: LaidOut;
  readonly stage: Stage;
  readonly unit: string;
  readonly whole: { readonly from: number; readonly to: number };
  /** Of the lane's channels, to step from sample to sample. */
  readonly windows: readonly TraceWindow[];
  readonly isSelected: boolean;
  readonly clip: string;
  readonly onEvent: (event: DimensionEvent) => void;
  readonly onToggleFrequency: () => void;
}

/** What its parts are given beside: what it is called, and how they tell what a hand does. */
export interface PartProps extends DimensionProps {
  readonly name: string;
  readonly select: () => void;
  readonly tell: (part: DimensionPart, moved: Moved, final: boolean, isDragged?: boolean) => void;
  /** @returns whether the key meant something. */
  readonly onKey: (key: string, part: "from" | "to" | null) => boolean;
}
