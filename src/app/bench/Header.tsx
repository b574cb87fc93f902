// The job's name and whether it is saved, and the way to everything that is not on the bench.

import { type Component, createMemo, Show } from "solid-js";
import { changeJob } from "../../job/edits/make.ts";
import { longest } from "../../job/record/sizes.ts";
import { useComparing } from "../comparing/comparing.ts";
import { useGround } from "../core/ground.ts";
import { type SavedState, saveWords } from "../core/keeping.ts";
import { useSheets } from "../core/sheets.ts";
import { useExhibits } from "../exhibits/exhibits.ts";
import { saveBundle } from "../job/save-bundle.ts";
import { OpenButton } from "../opening/OpenButton.tsx";
import { useOpening } from "../opening/opening.ts";
import { MenuIcon } from "../parts/icons.tsx";
import { Menu, type MenuItem } from "../parts/Menu.tsx";
import { createNarrow } from "./narrow.ts";
import { useTheme } from "./theme.ts";

export const Header: Component = () => {
  const { summary } = useGround();
  const sheets = useSheets();
  const exhibits = useExhibits();
  /** On a phone the header keeps what the main job needs; the rest stands first in the menu. */
  const isNarrow = createNarrow();
  const items = createItems(isNarrow);
  return (
    <header>
      <Title />
      <Show when={!isNarrow()}>
        <button type="button" onClick={() => sheets.open("paper")}>
          Job papers
        </button>
        <button type="button" onClick={() => sheets.open("guide")}>
          Recording guide
        </button>
      </Show>
      <OpenButton />
      <Show when={summary()}>
        <Show when={!isNarrow()}>
          <button type="button" onClick={() => sheets.open("shelf")}>
            Compare
          </button>
        </Show>
        <button type="button" class="main" onClick={() => void exhibits.make()}>
          Make exhibit
        </button>
      </Show>
      <Menu name="More" face={<MenuIcon />} items={items()} />
    </header>
  );
};

/** The job's name, to be typed, and whether it is saved. */
const Title: Component = () => {
  const { desk } = useGround();
  const facts = createMemo(() => {
    const { codes, odometer } = desk.job().vehicle;
    return [codes, odometer].filter(Boolean).join(" · ");
  });
  return (
    <div class="title">
      <h1 class="visually-hidden">Tracewright: {desk.job().name}</h1>
      <JobName />
      {/* biome-ignore lint/a11y/useSemanticElements: a line of words, no fieldset */}
      <span class="facts" role="group" aria-label="Job">
        <Show when={facts()}>
          <span class="fact">{facts()}</span>
        </Show>
        <span>
          {facts() && "\u00a0· "}
          {saveWords[desk.saveState()]}
        </span>
      </span>
      {/* A change for the worse is told at once; everything else may be read above. */}
      <span class="visually-hidden" role="status" aria-label="Save state">
        {worse[desk.saveState()]}
      </span>
    </div>
  );
};

/** Taken as it is typed; one that was emptied is what it was before. */
const JobName: Component = () => {
  const { desk } = useGround();
  const name = createMemo(() => desk.job().name);
  let before = "";
  const set = (typed: string) => typed.trim() && desk.change((job, at) => changeJob(job, at, { name: typed }));
  return (
    <input
      class="job-name"
      aria-label="Job name"
      value={name()}
      maxLength={longest.name}
      onFocus={() => {
        before = name();
      }}
      onInput={(event) => set(event.currentTarget.value)}
      onChange={(event) => {
        set(event.currentTarget.value.trim() || before);
        event.currentTarget.value = name();
      }}
    />
  );
};

/** What is under “More”. */
function createItems(isNarrow: () => boolean): () => readonly MenuItem[] {
  const ground = useGround();
  const sheets = useSheets();
  const theme = useTheme();
  const opening = useOpening();
  const comparing = useComparing();
  const none = () => !ground.summary();
  const handOverNow = async () => (await import("../hand-over/hand-over.ts")).handOver(ground, comparing);
  const fromHeader = (): readonly MenuItem[] => [
    { label: "Job papers", run: () => sheets.open("paper") },
    { label: "Recording guide", run: () => sheets.open("guide") },
    { label: "Compare", run: () => sheets.open("shelf"), disabled: none() },
    "line",
  ];
  const light = (): readonly MenuItem[] => {
    const isDark = theme.theme() === "dark";
    const system = "Light or dark as the system has it";
    return [
      { label: isDark ? "Light" : "Dark", run: () => theme.choose(isDark ? "light" : "dark") },
      { label: system, run: () => theme.choose("system"), disabled: theme.choice() === "system" },
    ];
  };
  return () => [
    ...(isNarrow() ? fromHeader() : []),
    { label: "Jobs …", run: () => sheets.open("jobs") },
    { label: "New job", run: () => void opening.startJob() },
    { label: "Save job bundle", run: () => void saveBundle(ground) },
    { label: "Hand over as a folder", run: () => void handOverNow() },
    "line",
    { label: "Save data …", run: () => sheets.open("export"), disabled: none() },
    { label: "Read it differently …", run: () => void opening.readDifferently(), disabled: none() },
    { label: "Units …", run: () => sheets.open("units") },
    { label: "Limits …", run: () => sheets.open("limits") },
    "line",
    ...light(),
    { label: "Size and keys …", run: () => sheets.open("display") },
    { label: "Keyboard", run: () => sheets.open("keyboard") },
  ];
}

const worse: Readonly<Partial<Record<SavedState, string>>> = {
  failed: "The job is not saved. It is tried again by itself.",
  recording: "A recording of this job is not kept.",
};
