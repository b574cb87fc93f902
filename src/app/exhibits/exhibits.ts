// From the bench to an exhibit: what the dialog is given, and what is kept when one is made.

import { type Accessor, createSignal } from "solid-js";
import { extentWithin } from "../../drawing/paths.ts";
import type { LiftOff, Span } from "../../exhaust/terms/analysis.ts";
import { describeLimit, type LimitName, limitsInForce } from "../../exhaust/terms/limits.ts";
import { asShown } from "../../job/edits/filters.ts";
import { dropExhibit, keepExhibit, putBackExhibit } from "../../job/edits/make.ts";
import type { CaptureRecord, ExhibitRecord } from "../../job/record/job.ts";
import { type Problem, ProblemError } from "../../problem.ts";
import type { ExhibitEdits } from "../../report/exhibit/edits.ts";
import { type Conditions, type NamedReading, printWidth } from "../../report/exhibit/sheet.ts";
import type { Comparing } from "../comparing/comparing.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { until } from "../core/until.ts";
import type { Dimensions } from "../dimensions/dimensions.ts";
import type { Healthy } from "../healthy/healthy.ts";
import type { Layers } from "../lanes/layers.ts";
import type { LiftOffs } from "../lift-offs/lift-offs.ts";
import { meansText, sensorOrder, sensorWord } from "../words.ts";
import { bytesAtHand } from "./bytes-at-hand.ts";
import { comparedDelays } from "./compared-delays.ts";
import { oxygenName } from "./compose.ts";
import { detailsIn } from "./details.ts";
import { drawnBeside } from "./drawn-beside.ts";
import { everydayNames } from "./everyday.ts";
import type { ExhibitDialogProps, ExhibitDraft, MadeExhibit } from "./types.ts";

export type ExhibitTask = Pick<ExhibitDialogProps, "draft" | "revises">;

export interface Exhibits {
  /** What the dialog works on; null while it is closed. */
  readonly task: Accessor<ExhibitTask | null>;
  /** Makes an exhibit of the bench as it stands. */
  make(): Promise<void>;
  /** Opens the last revision again, over the span it showed. */
  revise(record: ExhibitRecord, edits: ExhibitEdits | null): Promise<void>;
  /** With the job that it was made of, though another may lie on the desk by now. @throws ProblemError */
  keep(made: MadeExhibit, jobId: string): Promise<void>;
  remove(record: ExhibitRecord): Promise<void>;
  /** The last that was removed on this page; null for none. */
  readonly removed: Accessor<ExhibitRecord | null>;
  putBack(): Promise<void>;
  load(name: string): Promise<Blob | null>;
  close(): void;
}

interface Gone {
  readonly jobId: string;
  readonly record: ExhibitRecord;
  readonly svg: Blob;
  readonly png: Blob;
  /** Its place in the job's list. */
  readonly at: number;
}

export const { Context: ExhibitsContext, use: useExhibits } = subject<Exhibits>("Exhibits");

export function createExhibits(
  ground: Ground & {
    readonly liftOffs: LiftOffs;
    readonly dimensions: Dimensions;
    readonly comparing: Comparing;
    readonly layers: Layers;
    readonly healthy: Healthy;
  },
): Exhibits {
  const { desk, view, captures, chooseCapture } = ground;
  const [task, setTask] = createSignal<ExhibitTask | null>(null);
  const [gone, setGone] = createSignal<Gone | null>(null);
  const make = async (revises?: ExhibitTask["revises"]) => {
    const draft = await draftOf(ground);
    if (draft) setTask(revises ? { draft, revises } : { draft });
  };
  return {
    task,
    make: () => make(),
    async revise(record, edits) {
      if (captures.asRead(record.captureId)) chooseCapture(record.captureId);
      if (edits) view.show(edits.view);
      await make({ record, edits });
    },
    async keep({ record, svg, png }, jobId) {
      await desk.store.keepBlob(jobId, record.svg, svg);
      await desk.store.keepBlob(jobId, record.png, png);
      const isSaved = await desk.changeIn(jobId, (job, at) => keepExhibit(job, at, record));
      if (!isSaved) throw new ProblemError(notSavedYet);
    },
    /** Where storage is full its pictures go before the change is saved, which gets room by it. The page holds them until another goes. */
    async remove(record) {
      const { id: jobId, exhibits } = desk.job();
      const [svg, png] = await Promise.all([record.svg, record.png].map((name) => desk.store.blob(jobId, name)));
      setGone(svg && png ? { jobId, record, svg, png, at: exhibits.findIndex(({ id }) => id === record.id) } : null);
      desk.change((job, at) => dropExhibit(job, at, record.id));
      const ended = await desk.flushOrMakeRoom();
      if (ended === "refused") return; // the record in storage names them still: the next sweep takes them
      await desk.store.removeBlobs(jobId, [record.svg, record.png]).catch(() => {}); // the next sweep takes them
      if (ended === "full") await desk.flush();
    },
    removed: () => (gone()?.jobId === desk.job().id ? gone()!.record : null),
    async putBack() {
      const back = gone();
      if (!back || back.jobId !== desk.job().id) return;
      await desk.store.keepBlob(back.jobId, back.record.svg, back.svg);
      await desk.store.keepBlob(back.jobId, back.record.png, back.png);
      desk.change((job, at) => putBackExhibit(job, at, back.record, back.at));
      setGone(null);
      await desk.flush();
    },
    load: (name) => desk.store.blob(desk.job().id, name),
    close: () => setTask(null),
  };
}

const notSavedYet: Problem = {
  code: "storage-full",
  what: "The exhibit is made, but the job that holds it could not be saved.",
  remedy: "Download the exhibit now; saving is tried again by itself, and free storage under “Jobs” if it is full.",
};

/** The ratios that answer, where the comparison is fair. */
function comparedReadings({ comparison }: Comparing): readonly NamedReading[] {
  const differences = comparison()?.differences ?? [];
  const isFair = comparison()?.fair.every(({ ok }) => ok) ?? false;
  const names = {
    delay: "Delay, suspect over reference",
    storedOxygen: "Oxygen passed, suspect over reference",
  } as const;
  return differences.flatMap(({ reading, ratio }) =>
    isFair && ratio.value !== null && (reading === "delay" || reading === "storedOxygen")
      ? [{ name: names[reading], reading: ratio }]
      : [],
  );
}

/** What the two that are compared tell. */
function comparedStatements({ reference, shift, comparison, beforeAfter }: Comparing): readonly string[] {
  if (!reference() || !shift()) return [];
  return [comparison()?.says, beforeAfter()?.comparison.repair.says].filter((says) => says !== undefined);
}

/** By what a person said of each. */
function everydayOf({ comparing, desk }: Scene, { stage }: CaptureRecord): Pick<ExhibitDraft, "everyday"> {
  const reference = comparing.reference();
  if (!reference) return {};
  const other = desk.job().captures.find(({ id }) => id === reference.summary.take.captureId);
  return { everyday: everydayNames(stage, reference.kind, other?.stage) };
}

type Scene = Parameters<typeof createExhibits>[0];

async function draftOf(scene: Scene): Promise<ExhibitDraft | null> {
  const { desk, bench, summary, view, shown, readings, liftOffs, comparing, layers, healthy } = scene;
  const [capture, record] = [summary(), bench.record()];
  if (!capture || !record) return null;
  const span = view.view();
  // What an earlier version of the program measured is shown, but does not go on paper.
  const selected = readings.answered() ? liftOffs.selected() : null;
  const inView = selected && selected.at >= span.from && selected.at < span.to ? selected : null;
  const delay = inView && liftOffs.dimension();
  const { lanes, windows } = await layers.over({ span, width: printWidth, isOffered: inView !== null });
  const sound = inView || healthy.isShown() ? await healthy.bring() : null;
  const beside = drawnBeside(scene, lanes);
  const bytes = await bytesAtHand(scene, record, beside);
  const details = inView ? [] : await detailsIn(scene, span);
  const delays = details.length > 0 ? [] : (comparedDelays(scene, span, lanes) ?? (delay ? [delay] : []));
  const whole = readings.answered();
  const [finding, means] = [whole?.findings.find((one) => one.id === "catalyst"), whole?.means];
  return {
    job: desk.job(),
    record,
    summary: { ...capture, warnings: scene.warnings() },
    beside,
    sha256: bytes.sha256,
    view: span,
    lanes,
    windows,
    details,
    ...(sound ? { sound: { says: healthy.says(sound), isShown: healthy.isShown() } } : {}),
    dimensions: [...[...bench.state().dimensions, ...bench.state().cursors].map(asShown), ...delays],
    liftOff: inView,
    readings: [...comparedReadings(comparing), ...liftOffReadings(inView), ...(await sensorReadings(scene))],
    evidence: shown.evidence()?.evidence.marks ?? [],
    finding: comparing.comparison()?.says ?? finding?.statement ?? null,
    catalyst: finding ?? null,
    isCompared: comparing.reference() !== null,
    ...everydayOf(scene, record),
    conditions: await conditionsIn(scene, inView, span),
    statements: [
      ...bytes.statements,
      ...layers.statements(),
      ...comparedStatements(comparing),
      ...changedLimits(scene),
      ...(means ? [meansText(means)] : []),
    ],
  };
}

function liftOffReadings(lift: LiftOff | null): readonly NamedReading[] {
  if (!lift) return [];
  const delay = { name: "Delay, front to rear", reading: lift.delay };
  return lift.storedOxygen.value === null
    ? [delay]
    : [delay, { name: capitalised(oxygenName(lift.airFlow)), reading: lift.storedOxygen }];
}

/**
 * Front and rear side by side, as the panel lists them; what cannot be said is left out, and so is all of it where the view is not
 * measured soon: readings of another view must not stand on the sheet.
 */
async function sensorReadings({ readings, desk }: Scene): Promise<readonly NamedReading[]> {
  await until(() => !readings.isMeasuring(), AbortSignal.timeout(longestWait));
  if (readings.isMeasuring()) return [];
  const sensors = readings.inSpan()?.sensors;
  return sensorOrder.flatMap((name) =>
    (["front", "rear"] as const).flatMap((side) => {
      const reading = sensors?.[side]?.[name];
      return reading && reading.value !== null
        ? [{ name: `${sensorWord(name, desk.limits())}, ${side}`, reading }]
        : [];
    }),
  );
}

/** ms; a view is measured in a moment. */
const longestWait = 4000;

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * Of a lift-off, over its delay as the panel states them: flow times delay gives the oxygen that is printed. Else from the lowest to
 * the highest that the view shows.
 */
async function conditionsIn(scene: Scene, lift: LiftOff | null, span: Span): Promise<Conditions> {
  const { service, summary } = scene;
  const capture = summary()!;
  const idOf = (role: string) => capture.channels.find((c) => c.role === role)?.id;
  const ids = { engineSpeed: idOf("engine-speed"), airFlow: idOf("air-flow"), coolant: idOf("coolant-temp") };
  const wanted = Object.values(ids).filter((id) => id !== undefined);
  const { take } = capture;
  if (lift) {
    const values = await service.valuesAt(take, wanted, lift.at);
    const coolant = values.find((v) => v.channelId === ids.coolant)?.value ?? null;
    return { airFlow: lift.airFlow, engineSpeed: lift.engineSpeed, coolant };
  }
  const windows = await service.window({ take, channelIds: wanted, span, width: printWidth });
  const rangeOf = (id: string | undefined) => {
    const window = windows.find(({ channelId }) => channelId === id);
    return window ? extentWithin(window, span.from, span.to) : null;
  };
  return {
    engineSpeed: rangeOf(ids.engineSpeed),
    airFlow: rangeOf(ids.airFlow),
    coolant: rangeOf(ids.coolant),
  };
}

function changedLimits({ desk }: Scene): readonly string[] {
  const overrides = desk.job().limits ?? {};
  const limits = limitsInForce(overrides);
  return (Object.keys(overrides) as LimitName[]).map((name) => describeLimit(name, limits));
}
