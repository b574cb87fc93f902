// Which sheet lies over the bench; one at a time.

import { type Accessor, createSignal } from "solid-js";
import { subject } from "./context.ts";

export type Sheet = "jobs" | "export" | "limits" | "keyboard" | "guide" | "customer" | "shelf";

export interface Sheets {
  readonly shown: Accessor<Sheet | null>;
  open(sheet: Sheet): void;
  close(): void;
}

export const { Context: SheetsContext, use: useSheets } = subject<Sheets>("Which sheet is open");

export function createSheets(): Sheets {
  const [shown, setShown] = createSignal<Sheet | null>(null);
  return { shown, open: setShown, close: () => setShown(null) };
}
