// Makes an exhibit: the sheet as it will be at the left, what can still be said about it at the right.

import { type Component, createSignal, For, Show } from "solid-js";
import { exhibitFileStem } from "../../report/exhibit/raster.ts";
import type { Place } from "../../report/exhibit/sheet.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import "./exhibit.css";
import { MadeActions } from "./MadeActions.tsx";
import { createMaker, type Maker } from "./maker.ts";
import { NoteFields } from "./NoteFields.tsx";
import { Preview } from "./Preview.tsx";
import { ShadeFields } from "./ShadeFields.tsx";
import { SheetFields } from "./SheetFields.tsx";
import type { ExhibitDialogProps } from "./types.ts";

export const ExhibitDialog: Component<ExhibitDialogProps> = (props) => {
  const maker = createMaker(props);
  const [placing, setPlacing] = createSignal<string | null>(null);
  const [isAsking, setAsking] = createSignal(false);
  const title = () => maker.sheet().title;
  function mayClose(): boolean {
    setAsking(maker.isUnmade());
    return !maker.isUnmade();
  }
  /** One touch places the point; the next touch does nothing unless asked for. */
  function place(laneId: string, at: Place): void {
    maker.changeNote(placing()!, { laneId, at });
    setPlacing(null);
  }
  return (
    <Dialog
      title={`Exhibit, sheet ${title().sheet} of ${title().sheets}, revision ${title().revision}`}
      wide
      onClose={props.onClose}
      mayClose={mayClose}
      foot={
        <Show
          when={isAsking()}
          fallback={<Foot maker={maker} job={props.draft.job.name} onClose={() => mayClose() && props.onClose()} />}
        >
          <Leaving onStay={() => setAsking(false)} onLeave={props.onClose} />
        </Show>
      }
    >
      <Show when={maker.problem()}>{(problem) => <ProblemNote problem={problem()} onDismiss={maker.dismiss} />}</Show>
      <div class="exhibit-maker">
        <Preview maker={maker} onPlace={placing() === null ? undefined : place} />
        <div class="exhibit-fields">
          <Ticks maker={maker} draft={props.draft} />
          <SheetFields edits={maker.edits()} vehicle={props.draft.job.vehicle} onChange={maker.change} />
          <Notes maker={maker} placing={placing()} onPlacing={setPlacing} />
          <ShadeFields
            shade={maker.edits().shade}
            view={props.draft.view}
            onChange={(shade) => maker.change({ shade })}
          />
        </div>
      </div>
    </Dialog>
  );
};

/** What is drawn beside the traces, where there is any. */
const Ticks: Component<{ readonly maker: Maker; readonly draft: ExhibitDialogProps["draft"] }> = (props) => (
  <>
    <Show when={props.draft.sound}>
      <label class="check">
        <input
          type="checkbox"
          checked={props.maker.edits().sound ?? false}
          onChange={(event) => props.maker.change({ sound: event.currentTarget.checked })}
        />
        Where a sound catalyst would have stayed
      </label>
    </Show>
    <Show when={(props.draft.details ?? []).length > 0}>
      <label class="check">
        <input
          type="checkbox"
          checked={props.maker.edits().details ?? true}
          onChange={(event) => props.maker.change({ details: event.currentTarget.checked })}
        />
        Lift-offs enlarged beside it
      </label>
    </Show>
  </>
);

const Notes: Component<{
  readonly maker: Maker;
  readonly placing: string | null;
  readonly onPlacing: (id: string | null) => void;
}> = (props) => {
  const ids = () => props.maker.edits().notes.map(({ id }) => id);
  const noteOf = (id: string) => props.maker.edits().notes.find((note) => note.id === id);

  function add(): void {
    const { lanes, view } = props.maker.sheet();
    const [lane] = lanes;
    if (!lane) return;
    const at = { time: (view.from + view.to) / 2, level: (lane.scale[0] + lane.scale[1]) / 2 };
    props.onPlacing(props.maker.addNote(lane.id, at));
  }

  function remove(id: string): void {
    props.maker.removeNote(id);
    if (props.placing === id) props.onPlacing(null);
  }

  return (
    <>
      <For each={ids()}>
        {(id, i) => (
          <Show when={noteOf(id)}>
            {(note) => (
              <NoteFields
                note={note()}
                number={i() + 1}
                lanes={props.maker.sheet().lanes}
                view={props.maker.sheet().view}
                isPlacing={props.placing === id}
                onPlacing={() => props.onPlacing(props.placing === id ? null : id)}
                onChange={(part) => props.maker.changeNote(id, part)}
                onRemove={() => remove(id)}
              />
            )}
          </Show>
        )}
      </For>
      <Show when={props.maker.removedNote()}>
        {(note) => (
          <div role="status">
            <p class="soft">Removed: {note().text}</p>
            <button type="button" onClick={props.maker.putNoteBack}>
              Put it back
            </button>
          </div>
        )}
      </Show>
      <button type="button" onClick={add}>
        Add a note
      </button>
    </>
  );
};

/** Asked before what was typed is given up: it stands nowhere else. */
const Leaving: Component<{ readonly onStay: () => void; readonly onLeave: () => void }> = (props) => (
  <>
    <p class="grow" role="alert">
      What you changed on this sheet is not made yet.
    </p>
    <button type="button" class="danger" onClick={() => props.onLeave()}>
      Discard it
    </button>
    <button type="button" class="main" ref={takeFocus} onClick={() => props.onStay()}>
      Go on
    </button>
  </>
);

const unkept = "Made, but not kept with the job: download it now.";

/** The button that made the exhibit, and had the focus, is gone. */
const takeFocus = (button: HTMLButtonElement) => queueMicrotask(() => button.focus());

const Foot: Component<{ readonly maker: Maker; readonly job: string; readonly onClose: () => void }> = (props) => (
  <Show
    when={props.maker.made()}
    fallback={
      <>
        <p class="grow soft">Once made, a sheet stays as it is; a change makes a new revision.</p>
        <button type="button" onClick={() => props.onClose()}>
          Cancel
        </button>
        <button
          type="button"
          class="main"
          disabled={props.maker.isBusy() || props.maker.picture() === null}
          onClick={() => props.maker.make()}
        >
          {props.maker.isBusy() ? "Making …" : "Make exhibit"}
        </button>
      </>
    }
  >
    {(made) => (
      <>
        <p class="grow" role="status">
          <Show when={props.maker.isKept()} fallback={props.maker.isBusy() ? "Keeping it …" : unkept}>
            Made, and kept with the job. A change above starts revision {made().record.revision + 1}.
          </Show>
        </p>
        <Show when={!props.maker.isKept() && !props.maker.isBusy()}>
          <button type="button" onClick={() => void props.maker.keepAgain()}>
            Try to keep it again
          </button>
        </Show>
        <MadeActions
          png={made().png}
          svg={made().svg}
          stem={exhibitFileStem(props.job, props.maker.sheet().title.sheet, made().record.revision)}
          onProblem={props.maker.report}
        />
        <button type="button" class="main" ref={takeFocus} onClick={() => props.onClose()}>
          Done
        </button>
      </>
    )}
  </Show>
);
