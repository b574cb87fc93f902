// Which sheet lies over the bench; one at a time.

import { type Accessor, createSignal } from "solid-js";
import { subject } from "./context.ts";

export type Sheet =
  | "paper"
  | "units"
  | "display"
  | "jobs"
  | "export"
  | "limits"
  | "keyboard"
  | "guide"
  | "customer"
  | "shelf";

/** Pages of the job on paper, in the order of the work. */
export const paperPages = ["intake", "codes", "evidence", "frame", "monitors", "ruledOut", "repair"] as const;
export type PaperPage = (typeof paperPages)[number];

export interface Sheets {
  readonly shown: Accessor<Sheet | null>;
  /** The page of the job's papers that lies on top. */
  readonly page: Accessor<PaperPage>;
  turn(page: PaperPage): void;
  openPaper(page: PaperPage): void;
  open(sheet: Sheet): void;
  close(): void;
}

export const { Context: SheetsContext, use: useSheets } = subject<Sheets>("Which sheet is open");

export function createSheets(): Sheets {
  const [shown, setShown] = createSignal<Sheet | null>(null);
  const [page, turn] = createSignal<PaperPage>("intake");
  const openPaper = (wanted: PaperPage) => {
    turn(wanted);
    setShown("paper");
  };
  return { shown, page, turn, openPaper, open: setShown, close: () => setShown(null) };
}
