// Which sheet lies over the bench; one at a time.

import { type Accessor, createSignal } from "solid-js";

export type Sheet = "jobs" | "export" | "limits" | "keyboard" | "guide" | "customer" | "shelf";

export interface Sheets {
  readonly shown: Accessor<Sheet | null>;
  open(sheet: Sheet): void;
  close(): void;
}

export function createSheets(): Sheets {
  const [shown, setShown] = createSignal<Sheet | null>(null);
  return { shown, open: setShown, close: () => setShown(null) };
}
