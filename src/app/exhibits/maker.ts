// The state of one exhibit while it is made: what the user decided, its picture, and what was made of it.

import { batch, createEffect, createMemo, createResource, createSignal, on, onCleanup } from "solid-js";
import { intakeOf } from "../../job/edits/paper-edits.ts";
import type { ExhibitRecord, Job } from "../../job/record/job.ts";
import { newId } from "../../job/record/new-id.ts";
import { type Problem, ProblemError } from "../../problem.ts";
import { type ExhibitEdits, editsText } from "../../report/exhibit/edits.ts";
import { exhibitSvg } from "../../report/exhibit/exhibit-svg.ts";
import { printPixels, rasterise } from "../../report/exhibit/raster.ts";
import type { ExhibitSheet, Place, SheetNote } from "../../report/exhibit/sheet.ts";
import { type FontPart, fontFaces, fontParts } from "../../report/paper/fonts.ts";
import { localInstant } from "../../signal/written/date-text.ts";
import { composeSheet, firstEdits } from "./compose.ts";
import { remember, remembered, rememberedPaper } from "./remembered.ts";
import type { ExhibitDialogProps, MadeExhibit } from "./types.ts";

export type Maker = ReturnType<typeof createMaker>;

/** The preview follows typing after this pause, ms. */
const pause = 120;

export function createMaker(props: ExhibitDialogProps) {
  const [edits, setEdits] = createSignal<ExhibitEdits>(
    props.revises?.edits ?? firstEdits(props.draft, rememberedPaper(), technicianOf(props.draft.job)),
  );
  const made = createMade(props);
  const [isUnmade, setUnmade] = createSignal(false);
  const sheet = createMemo(() =>
    composeSheet(made.withFresh(), edits(), { now: localInstant(new Date()), revises: made.revised() }),
  );
  const needed = createMemo(() => fontParts(wordsOf(sheet())).join(" "));
  const [faces] = createResource(needed, (parts) => fontFaces(parts.split(" ") as FontPart[]));
  const svg = () => exhibitSvg(sheet(), { fontFaces: faces.latest ?? "", metadata: editsText(edits()) });

  /** A made exhibit is frozen: what is changed after it becomes its next revision. */
  const change = (part: Partial<ExhibitEdits>): void =>
    batch(() => {
      setEdits((before) => ({ ...before, ...part }));
      setUnmade(true);
      made.leave();
    });
  /** Frozen first, then kept: what cannot be kept can be downloaded all the same. */
  const make = () =>
    made.trying(async () => {
      const result = await freeze(svg(), props.draft.record.id, edits(), {
        ...{ ...sheet().title, revises: made.revised() },
        hasSound: props.draft.sound !== undefined,
      });
      made.put(result);
      setUnmade(false);
      remember("technician", edits().drawnBy);
      remember("paper", edits().paper);
      await made.keep(result);
    });
  return {
    edits,
    change,
    ...notesOf(edits, change),
    sheet,
    picture: createPicture(svg, () => faces.latest !== undefined),
    make,
    /** Something was changed since the sheet was opened or made. */
    isUnmade,
    /** Once more, where it could not be kept. */
    keepAgain: () => made.trying(() => made.keep(made.made()!)),
    made: made.made,
    isKept: made.isKept,
    isBusy: made.isBusy,
    problem: made.problem,
    dismiss: () => made.report(null),
    report: made.report,
  };
}

function notesOf(edits: () => ExhibitEdits, change: (part: Partial<ExhibitEdits>) => void) {
  const [removed, setRemoved] = createSignal<{ readonly note: SheetNote; readonly at: number } | null>(null);
  return {
    changeNote: (id: string, part: Partial<SheetNote>): void =>
      change({ notes: edits().notes.map((note) => (note.id === id ? { ...note, ...part } : note)) }),
    /** A note without words yet; its id. */
    addNote(laneId: string, at: Place): string {
      const note: SheetNote = { id: newId(), laneId, at, text: "", side: "above-right" };
      change({ notes: [...edits().notes, note] });
      return note.id;
    },
    removeNote(id: string): void {
      const { notes } = edits();
      const at = notes.findIndex((note) => note.id === id);
      const note = notes[at];
      if (note && note.text.trim() !== "") setRemoved({ note, at });
      change({ notes: notes.filter((one) => one.id !== id) });
    },
    /** The note with words that was removed last; null where it was put back. */
    removedNote: (): SheetNote | null => removed()?.note ?? null,
    putNoteBack(): void {
      const back = removed();
      if (back) change({ notes: edits().notes.toSpliced(back.at, 0, back.note) });
      setRemoved(null);
    },
  };
}

/** Whom the intake names, else who drew the last one here. */
const technicianOf = (job: Job): string => intakeOf(job).technician.trim() || remembered("technician");

/** What was made, whether it is kept, and what the next making revises. */
function createMade(props: ExhibitDialogProps) {
  const [made, setMade] = createSignal<MadeExhibit | null>(null);
  const [isKept, setKept] = createSignal(false);
  const [isBusy, setBusy] = createSignal(false);
  const [problem, report] = createSignal<Problem | null>(null);
  /** At first what the bench asked for, then what was made here. */
  const [revised, setRevised] = createSignal<ExhibitRecord | undefined>(props.revises?.record);
  const [fresh, setFresh] = createSignal<readonly ExhibitRecord[]>([]);
  return {
    ...{ made, isKept, isBusy, problem, report, revised },
    /** The draft, with what was made since it was begun. */
    withFresh() {
      const { draft } = props;
      return { ...draft, job: { ...draft.job, exhibits: [...draft.job.exhibits, ...fresh()] } };
    },
    /** It stays as it is; the next is its revision. */
    leave() {
      const last = made();
      if (!last) return;
      setMade(null);
      if (!isKept()) return;
      setFresh((before) => [...before, last.record]);
      setRevised(last.record);
    },
    put: (result: MadeExhibit) =>
      batch(() => {
        setKept(false);
        setMade(result);
      }),
    async keep(result: MadeExhibit) {
      await props.onMade(result);
      setKept(true);
    },
    async trying(work: () => Promise<void>) {
      setBusy(true);
      report(null);
      try {
        await work();
      } catch (error) {
        if (!(error instanceof ProblemError)) throw error;
        report(error.problem);
      } finally {
        setBusy(false);
      }
    },
  };
}

/** Everything on the sheet but the samples. */
const wordsOf = (sheet: ExhibitSheet): string =>
  JSON.stringify(sheet, (_, value: unknown) => (ArrayBuffer.isView(value) ? undefined : value));

interface Revision {
  readonly revision: number;
  readonly revises: ExhibitRecord | undefined;
  /** Where a sound catalyst's rear would have stayed is on the customer's picture of it. */
  readonly hasSound: boolean;
}

async function freeze(svg: string, captureId: string, edits: ExhibitEdits, place: Revision): Promise<MadeExhibit> {
  const png = await rasterise(svg, printPixels(edits.paper));
  const id = newId();
  return {
    svg: new Blob([svg], { type: "image/svg+xml" }),
    png,
    record: {
      id,
      captureId,
      revision: place.revision,
      headline: edits.headline,
      madeAt: new Date().toISOString(),
      paper: edits.paper,
      svg: `${id}.svg`,
      png: `${id}.png`,
      ...(place.revises === undefined ? {} : { revises: place.revises.id }),
      ...(place.hasSound ? { sound: true } : {}),
    },
  };
}

/** Address of the sheet's picture for an `img`; renewed a moment after the sheet changed. */
function createPicture(svg: () => string, isReady: () => boolean): () => string | null {
  const [address, setAddress] = createSignal<string | null>(null);
  const show = (text: string) => {
    const before = address();
    setAddress(URL.createObjectURL(new Blob([text], { type: "image/svg+xml" })));
    if (before) URL.revokeObjectURL(before);
  };
  createEffect(
    on([isReady, svg], ([ready, text]) => {
      if (!ready) return;
      const timer = setTimeout(() => show(text), address() === null ? 0 : pause);
      onCleanup(() => clearTimeout(timer));
    }),
  );
  onCleanup(() => {
    const last = address();
    if (last) URL.revokeObjectURL(last);
  });
  return address;
}
