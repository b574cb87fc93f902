// The jobs kept in this browser: open one, start a new one, delete one that is done.

import { type Component, createMemo, createResource, createSignal, For, Show } from "solid-js";
import type { JobLine } from "../../job/storage/store.ts";
import type { Problem } from "../../problem.ts";
import { dateText } from "../../signal/written/date-text.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { useGround } from "../core/ground.ts";
import { useStorekeeper } from "../core/storekeeper.ts";
import { useOpening } from "../opening/opening.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { SureButton } from "../parts/SureButton.tsx";
import { SetAsideRecords } from "./SetAsideRecords.tsx";
import { dayOf, holdsAll } from "./search.ts";

export const JobsSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const { desk, chooseCapture } = useGround();
  const opening = useOpening();
  const storekeeper = useStorekeeper();
  const [jobs, { refetch }] = createResource(async () => {
    await desk.flush();
    return desk.list();
  });
  const [wanted, setWanted] = createSignal("");
  const found = createMemo(() => (jobs() ?? []).filter((line) => holdsAll(line, wanted())));
  const [usage] = createResource(jobs, () => storekeeper.usage().catch(() => null));
  const close = () => props.onClose();
  const open = (id: string) => opening.openJob(id).then(close);
  const start = () => opening.startJob().then(close);
  const [problem, setProblem] = createSignal<Problem | null>(null);
  const remove = async (id: string) => {
    const isHere = id === desk.job().id;
    const outcome = await storekeeper.removeJob(id, () => isHere && chooseCapture(null));
    setProblem(outcome.ok ? null : outcome.problem);
    await refetch();
  };
  return (
    <Dialog
      title="Jobs"
      onClose={props.onClose}
      foot={
        <button type="button" class="main" onClick={start}>
          New job
        </button>
      }
    >
      <Show when={problem()}>{(shown) => <ProblemNote problem={shown()} onDismiss={() => setProblem(null)} />}</Show>
      <Show when={(jobs()?.length ?? 0) > 3}>
        <Search wanted={wanted()} hasFound={found().length > 0} onInput={setWanted} />
      </Show>
      <Show when={(jobs()?.length ?? 0) > 0} fallback={<p class="soft">No job is kept in this browser yet.</p>}>
        <ul class="lines">
          <For each={found()}>
            {(line) => (
              <JobRow
                line={line}
                bytes={usage()?.jobs.get(line.id) ?? null}
                isOnDesk={line.id === desk.job().id}
                onOpen={() => void open(line.id)}
                onRemove={() => void remove(line.id)}
              />
            )}
          </For>
        </ul>
      </Show>
      <SetAsideRecords jobsRead={jobs()} />
      <Show when={usage()}>{(used) => <p class="soft">{usedInWords(used())}</p>}</Show>
      <p class="soft">
        Jobs lie in this browser only. Save a job bundle to keep one elsewhere; drop it here to open it.
      </p>
    </Dialog>
  );
};

const Search: Component<{
  readonly wanted: string;
  readonly hasFound: boolean;
  readonly onInput: (wanted: string) => void;
}> = (props) => (
  <>
    <label class="field">
      <span>Search: name, car, code, plate, customer, words of the complaint, date</span>
      <input type="search" value={props.wanted} onInput={(event) => props.onInput(event.currentTarget.value)} />
    </label>
    <Show when={!props.hasFound}>
      <p class="soft">No job holds all of these words.</p>
    </Show>
  </>
);

const usedInWords = ({ all, shelf }: { readonly all: number; readonly shelf: number }): string =>
  `In this browser's storage: ${all > 0 ? inMegabytes(all) : "no recording yet"}${shelf > 0 ? `, of it ${inMegabytes(shelf)} for traces on the shelf` : ""}. Deleting a job gives back at once what only it needs.`;

const JobRow: Component<{
  readonly line: JobLine;
  /** What it takes of storage; null while that is not known. */
  readonly bytes: number | null;
  readonly isOnDesk: boolean;
  readonly onOpen: () => void;
  readonly onRemove: () => void;
}> = (props) => {
  const about = () => [dateText(props.line.date), props.line.about].filter(Boolean).join(" · ");
  const holds = () =>
    `${counted(props.line.captures, "recording")}, ${counted(props.line.exhibits, "exhibit")}, ${dayOf(props.line.changedAt)}`;
  return (
    <li>
      <div class="grow">
        <strong>{props.line.name}</strong>
        <Show when={about()}>
          <p class="one-line">{about()}</p>
        </Show>
        <p class="soft">
          {holds()}
          {props.bytes ? ` · ${inMegabytes(props.bytes)}` : ""}
          {props.isOnDesk ? " · on the bench" : ""}
        </p>
      </div>
      <SureButton
        ask="Delete"
        label={`Delete ${props.line.name}`}
        sure="Delete it for good"
        onSure={() => props.onRemove()}
      >
        <button
          type="button"
          aria-label={`Open ${props.line.name}`}
          disabled={props.isOnDesk}
          onClick={() => props.onOpen()}
        >
          Open
        </button>
      </SureButton>
    </li>
  );
};

const counted = (count: number, what: string) =>
  count === 0 ? `no ${what}` : `${count} ${what}${count === 1 ? "" : "s"}`;
/** Bytes that are there are never told as none. */
const inMegabytes = (bytes: number) => (bytes < leastTold ? `less than ${megabytes(leastTold)}` : megabytes(bytes));
const megabytes = (bytes: number) => formatValue(bytes / 1e6, "MB", bytes < 1e7 ? 0.1 : 1);
const leastTold = 1e5;
