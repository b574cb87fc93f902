// The sheets that may lie over the bench.

import { type Component, lazy, Show } from "solid-js";
import { Dynamic } from "solid-js/web";
import { changeDraft, keepSheet } from "../../job/edits/paper-edits.ts";
import { useComparing } from "../comparing/comparing.ts";
import { useGround } from "../core/ground.ts";
import { type Sheet, useSheets } from "../core/sheets.ts";
import { useExhibits } from "../exhibits/exhibits.ts";
import { JobsSheet } from "../job/JobsSheet.tsx";
import { KeyboardSheet } from "../keyboard/KeyboardSheet.tsx";
import type { Shortcut } from "../keyboard/shortcuts.ts";
import { useOpening } from "../opening/opening.ts";
import { FaultBoundary } from "../parts/FaultBoundary.tsx";

// These come when they are opened: the page starts without them.
const CustomerSheetDialog = lazy(async () => ({
  default: (await import("../customer/CustomerSheetDialog.tsx")).CustomerSheetDialog,
}));
const ExhibitDialog = lazy(async () => ({ default: (await import("../exhibits/ExhibitDialog.tsx")).ExhibitDialog }));
const ExportSheet = lazy(async () => ({ default: (await import("../export/ExportSheet.tsx")).ExportSheet }));
const GuideSheet = lazy(async () => ({ default: (await import("../guide/GuideSheet.tsx")).GuideSheet }));
const LeavingSheet = lazy(async () => ({ default: (await import("../job/LeavingSheet.tsx")).LeavingSheet }));
const LimitsSheet = lazy(async () => ({ default: (await import("../limits/LimitsSheet.tsx")).LimitsSheet }));
const PaperSheet = lazy(async () => ({ default: (await import("../paper/PaperSheet.tsx")).PaperSheet }));
const QuestionSheet = lazy(async () => ({ default: (await import("../opening/QuestionSheet.tsx")).QuestionSheet }));
const DisplaySheet = lazy(async () => ({ default: (await import("../display/DisplaySheet.tsx")).DisplaySheet }));
const UnitsSheet = lazy(async () => ({ default: (await import("../units/UnitsSheet.tsx")).UnitsSheet }));
const ShelfSheet = lazy(async () => ({ default: (await import("../shelf/ShelfSheet.tsx")).ShelfSheet }));

/** The sheets that need nothing but a way to close them. */
const plainSheets: Readonly<Partial<Record<Sheet, Component<{ readonly onClose: () => void }>>>> = {
  jobs: JobsSheet,
  paper: PaperSheet,
  units: UnitsSheet,
  display: DisplaySheet,
  guide: GuideSheet,
  shelf: ShelfSheet,
  limits: LimitsSheet,
  export: ExportSheet,
};
const plainSheet = (shown: Sheet | null) => shown && plainSheets[shown];

export const SheetStack: Component<{ readonly shortcuts: readonly Shortcut[] }> = (props) => {
  const sheets = useSheets();
  const { desk } = useGround();
  const opening = useOpening();
  const exhibits = useExhibits();
  return (
    <>
      <FaultBoundary name="this sheet" onLeave={sheets.close}>
        <Show when={plainSheet(sheets.shown())}>
          {(sheet) => <Dynamic component={sheet()} onClose={sheets.close} />}
        </Show>
        <Show when={sheets.shown() === "keyboard"}>
          <KeyboardSheet shortcuts={props.shortcuts} onClose={sheets.close} />
        </Show>
        <Show when={sheets.shown() === "customer"}>
          <CustomerSheetOfJob onClose={sheets.close} />
        </Show>
      </FaultBoundary>
      <Show when={exhibits.task()} keyed>
        {(task) => (
          <FaultBoundary name="the exhibit" onLeave={exhibits.close}>
            <ExhibitDialog
              {...task}
              onMade={(made) => exhibits.keep(made, task.draft.job.id)}
              onClose={exhibits.close}
            />
          </FaultBoundary>
        )}
      </Show>
      <Show when={opening.question()} keyed>
        {(question) => (
          <FaultBoundary name="the question" onLeave={() => opening.ask(null)}>
            <QuestionSheet question={question} onClose={() => opening.ask(null)} />
          </FaultBoundary>
        )}
      </Show>
      <Show when={desk.leaving()} keyed>
        {(leaving) => <LeavingSheet leaving={leaving} />}
      </Show>
    </>
  );
};

const CustomerSheetOfJob: Component<{ readonly onClose: () => void }> = (props) => {
  const { desk, readings, captureId } = useGround();
  const exhibits = useExhibits();
  const comparing = useComparing();
  const isStillMeasured = () => readings.isReadingWhole() || comparing.isUnderWay();
  return (
    <CustomerSheetDialog
      job={desk.job()}
      findings={readings.answered()?.findings ?? []}
      liftOff={readings.answered()?.liftOff ?? null}
      repair={comparing.beforeAfter()?.comparison ?? null}
      judged={captureId()}
      isMeasuring={isStillMeasured()}
      loadBlob={exhibits.load}
      onDraft={(part) => desk.change((job, at) => changeDraft(job, at, part))}
      onKeep={(sheet) => desk.change((job, at) => keepSheet(job, at, sheet))}
      onClose={props.onClose}
    />
  );
};
