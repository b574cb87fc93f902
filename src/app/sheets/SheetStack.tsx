// The sheets that may lie over the bench.

import { type Component, lazy, Match, Show, Switch } from "solid-js";
import { changeDraft, keepSheet } from "../../job/edits/paper-edits.ts";
import { useComparing } from "../comparing/comparing.ts";
import { useGround } from "../core/ground.ts";
import { useSheets } from "../core/sheets.ts";
import { useExhibits } from "../exhibits/exhibits.ts";
import { JobsSheet } from "../job/JobsSheet.tsx";
import { KeyboardSheet } from "../keyboard/KeyboardSheet.tsx";
import type { Shortcut } from "../keyboard/shortcuts.ts";
import { useOpening } from "../opening/opening.ts";
import { Part } from "../parts/Part.tsx";

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
const UnitsSheet = lazy(async () => ({ default: (await import("../units/UnitsSheet.tsx")).UnitsSheet }));
const ShelfSheet = lazy(async () => ({ default: (await import("../shelf/ShelfSheet.tsx")).ShelfSheet }));

export const SheetStack: Component<{ readonly shortcuts: readonly Shortcut[] }> = (props) => {
  const sheets = useSheets();
  const { desk, readings } = useGround();
  const opening = useOpening();
  const exhibits = useExhibits();
  const comparing = useComparing();
  return (
    <>
      <Part name="this sheet" onLeave={sheets.close}>
        <Switch>
          <Match when={sheets.shown() === "jobs"}>
            <JobsSheet onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "paper"}>
            <PaperSheet onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "units"}>
            <UnitsSheet onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "guide"}>
            <GuideSheet onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "shelf"}>
            <ShelfSheet onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "limits"}>
            <LimitsSheet onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "export"}>
            <ExportSheet onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "keyboard"}>
            <KeyboardSheet shortcuts={props.shortcuts} onClose={sheets.close} />
          </Match>
          <Match when={sheets.shown() === "customer"}>
            <CustomerSheetDialog
              job={desk.job()}
              findings={readings.whole()?.findings ?? []}
              liftOff={readings.whole()?.liftOff ?? null}
              repair={comparing.beforeAfter()?.comparison ?? null}
              loadBlob={exhibits.load}
              onDraft={(part) => desk.change((job, at) => changeDraft(job, at, part))}
              onKeep={(sheet) => desk.change((job, at) => keepSheet(job, at, sheet))}
              onClose={sheets.close}
            />
          </Match>
        </Switch>
      </Part>
      <Show when={exhibits.task()} keyed>
        {(task) => (
          <Part name="the exhibit" onLeave={exhibits.close}>
            <ExhibitDialog {...task} onMade={exhibits.keep} onClose={exhibits.close} />
          </Part>
        )}
      </Show>
      <Show when={opening.question()} keyed>
        {(question) => (
          <Part name="the question" onLeave={() => opening.ask(null)}>
            <QuestionSheet question={question} onClose={() => opening.ask(null)} />
          </Part>
        )}
      </Show>
      <Show when={desk.leaving()} keyed>
        {(leaving) => <LeavingSheet leaving={leaving} />}
      </Show>
    </>
  );
};
