// The empty bench: two large choices, and what may hurt someone.

import { type Component, type JSX, Show } from "solid-js";
import { isEmpty } from "../../job/edits/make.ts";
import { useGround } from "../core/ground.ts";
import { saveWords } from "../core/keeping.ts";
import { useSheets } from "../core/sheets.ts";
import { useOffline } from "../offline/offline.ts";
import { EarlyPicture } from "./EarlyPicture.tsx";
import { OpenButton } from "./OpenButton.tsx";
import { useOpening } from "./opening.ts";
import { openSampleJob } from "./sample-job.ts";

export const EmptyBench: Component<{
  /** What the page has to say. */
  readonly children: JSX.Element;
  /** Saves the job at hand as a bundle. */
  readonly onSave: () => void;
}> = (props) => {
  const { captures, desk } = useGround();
  const sheets = useSheets();
  const opening = useOpening();
  const offline = useOffline();
  return (
    <main class="empty">
      <header>
        <h1>Is it really the catalyst?</h1>
        <p>Lay a recording of the front and rear oxygen sensors on the bench and measure it.</p>
      </header>
      {props.children}
      <Show when={!isEmpty(desk.job())}>
        <div class="row job-at-hand">
          {/* biome-ignore lint/a11y/useSemanticElements: a line of words, no fieldset */}
          <p class="grow" role="group" aria-label="Job">
            <strong>{desk.job().name}</strong>{" "}
            <span class="soft">has no recording yet · {saveWords[desk.saveState()]}</span>
          </p>
          <button type="button" class="main" onClick={() => sheets.open("paper")}>
            Job papers
          </button>
          <button type="button" onClick={props.onSave}>
            Save job bundle
          </button>
          <button type="button" onClick={() => void opening.startJob()}>
            New job
          </button>
        </div>
      </Show>
      <Show when={captures.beingRead()?.partial} fallback={<Choices />}>
        {(partial) => <EarlyPicture partial={partial()} />}
      </Show>
      <footer>
        <div class="row">
          <button type="button" class="plain" onClick={() => sheets.open("guide")}>
            Recording guide
          </button>
          <button type="button" class="plain" onClick={() => sheets.open("jobs")}>
            Jobs
          </button>
          <button type="button" class="plain" onClick={() => sheets.open("units")}>
            Units
          </button>
        </div>
        <p class="caution">
          On the road a second person records; nobody watches a screen while driving. Exhaust parts burn, exhaust gas
          kills: keep leads off hot pipes and draw the gas outside. Your workshop's rules come first.
        </p>
        <p class="soft">
          Recordings stay in this browser. Nothing is sent anywhere.
          <Show when={offline.isKept()}> The program is kept here too: it starts without a network.</Show>
        </p>
      </footer>
    </main>
  );
};

const Choices: Component = () => {
  const ground = useGround();
  const sheets = useSheets();
  const opening = useOpening();
  return (
    <div class="choices">
      <OpenButton>
        <RecordingPicture />
        <strong>Open a recording</strong>
        <span class="soft">Text, WAV, raw numbers, zip or gzip. Choose it, drop it anywhere here, or paste it.</span>
      </OpenButton>
      <button type="button" onClick={() => sheets.openPaper("intake")}>
        <PaperPicture />
        <strong>Begin with the complaint</strong>
        <span class="soft">Customer's words, codes, freeze frame: saved before anything is cleared or recorded.</span>
      </button>
      <button type="button" onClick={() => openSampleJob(ground, opening)}>
        <LiftOffPicture />
        <strong>Try the sample job</strong>
        <span class="soft">A simulated car with P0420: full throttle and release, three times.</span>
      </button>
    </div>
  );
};

/** A written sheet with a ticked line. */
const PaperPicture: Component = () => (
  <svg viewBox="0 0 260 56" aria-hidden="true" fill="none">
    <path d="M2 54H258" stroke="var(--hair)" />
    <path d="M40 10H220M40 24H180M40 38H204" stroke="var(--ink)" stroke-width="1.4" />
    <path d="M18 9L22 13L30 4M18 23L22 27L30 18" stroke="var(--good)" stroke-width="2" />
    <path d="M18 33H29V43H18Z" stroke="var(--edge)" />
  </svg>
);

/** A trace on a sheet, and the arrow that lays it down. */
const RecordingPicture: Component = () => (
  <svg viewBox="0 0 260 56" aria-hidden="true" fill="none">
    <path d="M2 54H258" stroke="var(--hair)" />
    <path
      d="M8 12H36L42 44H66L72 12H98L104 44H128L134 12H160L166 44H190L196 12H222L228 44H252"
      stroke="var(--front)"
      stroke-width="1.4"
      stroke-linejoin="round"
    />
    <path d="M8 30C60 26 100 34 150 29S220 31 252 29" stroke="var(--rear)" stroke-width="2.8" />
  </svg>
);

/** Front and rear fall, with the delay between them as a dimension. */
const LiftOffPicture: Component = () => (
  <svg viewBox="0 0 260 56" aria-hidden="true" fill="none">
    <path d="M2 54H258" stroke="var(--hair)" />
    <path d="M8 12H96L104 46H252" stroke="var(--front)" stroke-width="1.4" stroke-linejoin="round" />
    <path d="M8 15H150L162 46H252" stroke="var(--rear)" stroke-width="2.8" stroke-linejoin="round" />
    <path
      d="M100 4V30M156 4V30M100 8H156M106 5L100 8L106 11M150 5L156 8L150 11"
      stroke="var(--ink)"
      stroke-width="1.1"
    />
  </svg>
);
