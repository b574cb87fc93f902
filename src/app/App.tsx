// The whole page: an empty bench until a recording is open; files are taken wherever they are dropped or pasted.

import {
  type Component,
  type Context,
  createComponent,
  createMemo,
  createSignal,
  type JSX,
  onCleanup,
  onMount,
  Show,
} from "solid-js";
import { BenchScreen } from "./bench/BenchScreen.tsx";
import { Notes } from "./bench/Notes.tsx";
import { ThemeContext } from "./bench/theme.ts";
import { ComparingContext } from "./comparing/comparing.ts";
import { GroundContext } from "./core/ground.ts";
import { SheetsContext } from "./core/sheets.ts";
import { StorekeeperContext } from "./core/storekeeper.ts";
import { DimensionsContext } from "./dimensions/dimensions.ts";
import { DisplayContext } from "./display/display.ts";
import { ExhibitsContext } from "./exhibits/exhibits.ts";
import { RecordedContext } from "./guide/recorded.ts";
import { HealthyContext } from "./healthy/healthy.ts";
import { saveBundle } from "./job/save-bundle.ts";
import { shortcutsOf, useShortcuts } from "./keyboard/shortcuts.ts";
import { LayersContext } from "./lanes/layers.ts";
import { LiftOffsContext } from "./lift-offs/lift-offs.ts";
import { OfflineContext } from "./offline/offline.ts";
import { EmptyBench } from "./opening/EmptyBench.tsx";
import { OpeningContext } from "./opening/opening.ts";
import { takeFiles } from "./opening/take-files.ts";
import { watchFaults } from "./parts/fault.ts";
import { PlacesContext } from "./places/places.ts";
import { InstantsContext } from "./reading-out/instants.ts";
import { LoupeContext } from "./reading-out/loupe.ts";
import { SameRunContext } from "./same-run/same-run.ts";
import { SheetStack } from "./sheets/SheetStack.tsx";
import { StretchesContext } from "./stretches/stretches.ts";
import { createWorkbench, type Givens, type Workbench } from "./workbench.ts";

export const App: Component<Givens> = (props) => {
  const workbench = createWorkbench(props);
  const { opening, notices, bench } = workbench;
  const shortcuts = shortcutsOf(workbench);
  const [isOver, setOver] = createSignal(false);
  /** The bench is drawn anew as numbers are written otherwise, and in letters of another size. */
  const shownAs = createMemo(() => `${JSON.stringify(workbench.writing())} ${workbench.display.display().letters}`);
  const isEmpty = createMemo(() => bench.record() === null);
  useShortcuts(shortcuts, () => !isEmpty(), { hasLetters: () => workbench.display.display().letterKeys });
  takeFiles(opening, setOver);
  onCleanup(watchFaults(notices.show));
  onMount(() => void opening.restore());
  return (
    <Subjects of={workbench}>
      <Show
        when={!isEmpty()}
        fallback={
          <EmptyBench onSave={() => void saveBundle(workbench)}>
            <Notes />
          </EmptyBench>
        }
      >
        <Show when={shownAs()} keyed>
          <BenchScreen />
        </Show>
      </Show>
      <SheetStack shortcuts={shortcuts} />
      <Show when={isOver()}>
        <div class="drop-veil">Let go to open it</div>
      </Show>
      <p class="visually-hidden" role="status" aria-live="polite">
        {notices.said()}
      </p>
    </Subjects>
  );
};

/** Gives the screens the state of each subject. A new subject gets its line here. */
const Subjects: Component<{ readonly of: Workbench; readonly children: JSX.Element }> = (props) => {
  const all = props.of;
  const given = [
    give(GroundContext, all),
    give(ThemeContext, all.theme),
    give(SheetsContext, all.sheets),
    give(StorekeeperContext, all.storekeeper),
    give(OpeningContext, all.opening),
    give(InstantsContext, all.instants),
    give(LoupeContext, all.loupe),
    give(PlacesContext, all.places),
    give(DimensionsContext, all.dimensions),
    give(LiftOffsContext, all.liftOffs),
    give(StretchesContext, all.stretches),
    give(ExhibitsContext, all.exhibits),
    give(RecordedContext, all.recorded),
    give(ComparingContext, all.comparing),
    give(LayersContext, all.layers),
    give(HealthyContext, all.healthy),
    give(SameRunContext, all.sameRun),
    give(OfflineContext, all.offline),
    give(DisplayContext, all.display),
  ];
  return given.reduceRight<() => JSX.Element>(
    (inner, wrap) => () => wrap(inner),
    () => props.children,
  )();
};

const give =
  <T,>(context: Context<T | undefined>, value: T) =>
  (inner: () => JSX.Element): JSX.Element =>
    createComponent(context.Provider, {
      value,
      get children() {
        return inner();
      },
    });
