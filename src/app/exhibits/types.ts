// What the bench hands to the exhibit dialog, and what it gets back.

import type { CaptureSummary, ChannelWindow } from "../../../workers/protocol.ts";
import type { EvidenceMark, Finding, LiftOff, Span } from "../../exhaust/terms/analysis.ts";
import type { CaptureRecord, ExhibitRecord, Job } from "../../job/record/job.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { ExhibitEdits } from "../../report/exhibit/edits.ts";
import type { Conditions, NamedReading, SheetDimension } from "../../report/exhibit/sheet.ts";
import type { DraftDetail } from "./details.ts";
import type { DrawnBeside } from "./drawn-beside.ts";
import type { EverydayNames } from "./everyday.ts";

/** The bench as it stood when the user asked for an exhibit. */
export interface ExhibitDraft {
  readonly job: Job;
  readonly record: CaptureRecord;
  readonly summary: CaptureSummary;
  /** Other recordings of which something is drawn. */
  readonly beside?: readonly DrawnBeside[];
  /** SHA-256 of the bytes at hand; absent: that of the record. */
  readonly sha256?: string;
  readonly view: Span;
  /** As shown, top to bottom, hidden channels left out. */
  readonly lanes: readonly LaneLook[];
  /** One for each trace of `lanes`, fetched for `view` with report's `printWidth`. */
  readonly windows: readonly ChannelWindow[];
  /** Lift-offs enlarged beside a long view. */
  readonly details?: readonly DraftDetail[];
  /** Pinned dimensions and standing cursors of the view. */
  readonly dimensions: readonly SheetDimension[];
  /** The lift-off in view that is selected. */
  readonly liftOff: LiftOff | null;
  /** Readings in view, most telling first. */
  readonly readings: readonly NamedReading[];
  readonly evidence: readonly EvidenceMark[];
  /** The finding in one sentence, where there is one. */
  readonly finding: string | null;
  /** Of the catalyst, for the verdict's line. */
  readonly catalyst?: Finding | null;
  /** A reference lies under the recording: the verdict's line says whose it is. */
  readonly isCompared?: boolean;
  /** What a customer calls the two that are compared. */
  readonly everyday?: EverydayNames;
  /** At the lift-off, else over the view. */
  readonly conditions: Conditions;
  /** Among the layers lies where a sound catalyst's rear would have stayed: what it is, and whether the bench shows it. */
  readonly sound?: { readonly says: string; readonly isShown: boolean };
  /** More to state on the sheet, one sentence each: limits that were changed, where a reference comes from. */
  readonly statements?: readonly string[];
}

/** An exhibit is frozen when made; `record.svg` and `record.png` name the two blobs. */
export interface MadeExhibit {
  readonly record: ExhibitRecord;
  readonly svg: Blob;
  readonly png: Blob;
}

/** Props of `ExhibitDialog`; it opens when mounted and asks to be closed. */
export interface ExhibitDialogProps {
  readonly draft: ExhibitDraft;
  /** To make a new revision: the exhibit, and what its SVG says of the last one (`editsIn`), whose view `draft` shows. */
  readonly revises?: { readonly record: ExhibitRecord; readonly edits: ExhibitEdits | null };
  /** Stores both blobs and the record with the job; a rejected promise is shown and nothing is lost. */
  readonly onMade: (made: MadeExhibit) => Promise<void> | void;
  readonly onClose: () => void;
}

/** Props of `ExhibitList`. */
export interface ExhibitListProps {
  readonly exhibits: readonly ExhibitRecord[];
  /** A kept blob by the name in the record; null when the browser no longer holds it. */
  readonly loadBlob: (name: string) => Promise<Blob | null>;
  /** Asks for a revision; `edits` is null where the SVG is gone. The app brings the bench to `edits.view` first. */
  readonly onRevise?: (exhibit: ExhibitRecord, edits: ExhibitEdits | null) => void;
  readonly onRemove?: (exhibit: ExhibitRecord) => void;
  /** Headline of the one that was removed last, which can be put back; null for none. */
  readonly removed?: string | null;
  readonly onPutBack?: () => void;
}
