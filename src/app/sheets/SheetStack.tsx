// The sheets that may lie over the bench.

import { type Component, lazy, Match, Show, Switch } from "solid-js";
import type { Sheets } from "../state/sheets.ts";
import type { Shortcut } from "../state/shortcuts.ts";
import { useWorkbench } from "../state/workbench.ts";
import { JobsSheet } from "./JobsSheet.tsx";
import { KeyboardSheet } from "./KeyboardSheet.tsx";

// These come when they are opened: the page starts without them.
const CustomerSheetDialog = lazy(async () => ({
  default: (await import("../exhibit/CustomerSheetDialog.tsx")).CustomerSheetDialog,
}));
const ExhibitDialog = lazy(async () => ({ default: (await import("../exhibit/ExhibitDialog.tsx")).ExhibitDialog }));
const ExportSheet = lazy(async () => ({ default: (await import("./ExportSheet.tsx")).ExportSheet }));
const GuideSheet = lazy(async () => ({ default: (await import("./GuideSheet.tsx")).GuideSheet }));
const LimitsSheet = lazy(async () => ({ default: (await import("./LimitsSheet.tsx")).LimitsSheet }));
const QuestionSheet = lazy(async () => ({ default: (await import("./QuestionSheet.tsx")).QuestionSheet }));
const ShelfSheet = lazy(async () => ({ default: (await import("../compare/ShelfSheet.tsx")).ShelfSheet }));

export const SheetStack: Component<{ readonly sheets: Sheets; readonly shortcuts: readonly Shortcut[] }> = (props) => {
  const { desk, opening, exhibits, readings, comparing } = useWorkbench();
  return (
    <>
      <Switch>
        <Match when={props.sheets.shown() === "jobs"}>
          <JobsSheet onClose={props.sheets.close} />
        </Match>
        <Match when={props.sheets.shown() === "guide"}>
          <GuideSheet onClose={props.sheets.close} />
        </Match>
        <Match when={props.sheets.shown() === "shelf"}>
          <ShelfSheet onClose={props.sheets.close} />
        </Match>
        <Match when={props.sheets.shown() === "limits"}>
          <LimitsSheet onClose={props.sheets.close} />
        </Match>
        <Match when={props.sheets.shown() === "export"}>
          <ExportSheet onClose={props.sheets.close} />
        </Match>
        <Match when={props.sheets.shown() === "keyboard"}>
          <KeyboardSheet shortcuts={props.shortcuts} onClose={props.sheets.close} />
        </Match>
        <Match when={props.sheets.shown() === "customer"}>
          <CustomerSheetDialog
            job={desk.job()}
            findings={readings.whole()?.findings ?? []}
            liftOff={readings.whole()?.liftOff ?? null}
            repair={comparing.beforeAfter()?.comparison ?? null}
            loadBlob={exhibits.load}
            onClose={props.sheets.close}
          />
        </Match>
      </Switch>
      <Show when={exhibits.task()} keyed>
        {(task) => <ExhibitDialog {...task} onMade={exhibits.keep} onClose={exhibits.close} />}
      </Show>
      <Show when={opening.question()} keyed>
        {(question) => <QuestionSheet question={question} onClose={() => opening.ask(null)} />}
      </Show>
    </>
  );
};
