// What a recording can be compared with: the job's other recordings, and the shelf of known-good traces.

import { type Component, createMemo, createResource, createSignal, For, Show } from "solid-js";
import { knownGoodTraces } from "../../../sample-traces/index.ts";
import { type ShelfTrace, type ShelfWords, searchShelf } from "../../job/shelf/shelf-trace.ts";
import type { Problem } from "../../problem.ts";
import { litresOf } from "../../signal/written/engine-size.ts";
import { useComparing } from "../comparing/comparing.ts";
import { type Choice, keyOf, wordsOf } from "../comparing/reference.ts";
import { useGround } from "../core/ground.ts";
import { useStorekeeper } from "../core/storekeeper.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { sizeText } from "../parts/EngineSizeField.tsx";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import { SureButton } from "../parts/SureButton.tsx";
import { KeepForm } from "./KeepForm.tsx";
import { exportTrace, importTrace } from "./shelf-files.ts";

type Kind = "all" | "kept" | "simulated";

/** More than this many are not listed at once: the search narrows them. */
const mostShown = 60;

interface Offer extends ShelfWords {
  readonly choice: Choice;
  readonly isSimulated: boolean;
}

export const ShelfSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const ground = useGround();
  const comparing = useComparing();
  const [list, { refetch }] = createResource(() => comparing.shelf.list());
  const [keeping, setKeeping] = createSignal(false);
  const [problem, setProblem] = createSignal<Problem | null>(null);
  const kept = () => {
    const outcome = list();
    return outcome?.ok ? outcome.value : { traces: [], problems: outcome ? [outcome.problem] : [] };
  };
  const choose = (choice: Choice) => {
    props.onClose();
    void comparing.start(choice);
  };
  const settle = async (outcome: Done) => {
    setProblem(outcome.ok ? null : outcome.problem);
    await refetch();
  };
  return (
    <Dialog
      title="Compare with"
      onClose={props.onClose}
      foot={
        keeping() ? undefined : (
          <>
            <ImportButton onFile={async (file) => settle(await importTrace(file, ground, comparing.shelf))} />
            <button type="button" disabled={!ground.summary()} onClick={() => setKeeping(true)}>
              Keep this recording as known-good …
            </button>
          </>
        )
      }
    >
      <For each={[...kept().problems, ...(problem() ? [problem()!] : [])]}>
        {(one) => <ProblemNote problem={one} />}
      </For>
      <Show
        when={!keeping()}
        fallback={
          <KeepForm
            onDone={async (outcome) => {
              await settle(outcome);
              if (outcome.ok) setKeeping(false);
            }}
            onCancel={() => setKeeping(false)}
          />
        }
      >
        <OtherRecordings onChoose={choose} />
        <KnownGood kept={kept().traces} onChoose={choose} onDone={(outcome) => void settle(outcome)} />
      </Show>
    </Dialog>
  );
};

const ImportButton: Component<{ readonly onFile: (file: File) => Promise<void> }> = (props) => {
  let chooser!: HTMLInputElement;
  return (
    <>
      <button type="button" onClick={() => chooser.click()}>
        Import a shelf trace …
      </button>
      <input
        ref={chooser}
        type="file"
        hidden
        aria-label="Shelf trace file"
        accept=".zip"
        onChange={async () => {
          const [file] = chooser.files ?? [];
          if (file) await props.onFile(file);
          chooser.value = "";
        }}
      />
    </>
  );
};

const OtherRecordings: Component<{ readonly onChoose: (choice: Choice) => void }> = (props) => {
  const { desk, captureId } = useGround();
  const others = () => desk.job().captures.filter(({ id }) => id !== captureId());
  return (
    <Show when={others().length > 0}>
      <section aria-label="Recordings of this job">
        <h3>Another recording of this job, before or after</h3>
        <ul class="lines">
          <For each={others()}>
            {(record) => (
              <li>
                <div class="grow">
                  <strong>{record.fileName}</strong>
                </div>
                <button
                  type="button"
                  aria-label={`Compare with ${record.fileName}`}
                  onClick={() => props.onChoose({ kind: "job", record })}
                >
                  Compare
                </button>
              </li>
            )}
          </For>
        </ul>
      </section>
    </Show>
  );
};

const KnownGood: Component<{
  readonly kept: readonly ShelfTrace[];
  readonly onChoose: (choice: Choice) => void;
  readonly onDone: (outcome: Done) => void;
}> = (props) => {
  const { reference } = useComparing();
  const [search, setSearch] = createSignal("");
  const [kind, setKind] = createSignal<Kind>("all");
  const offers = createMemo((): readonly Offer[] => {
    const mine = props.kept.map((trace) => ({ ...trace, choice: { kind: "shelf", trace } as const }));
    const shipped = knownGoodTraces.map((trace) => ({
      ...wordsOf(trace),
      isSimulated: true,
      choice: { kind: "sample", trace } as const,
    }));
    const wanted = { all: [...mine, ...shipped], kept: mine, simulated: [...mine, ...shipped].filter(isSimulated) };
    return searchShelf<Offer>(wanted[kind()], search());
  });
  return (
    <section aria-label="Known-good traces">
      <h3>Known-good traces</h3>
      <div class="shelf-search">
        <input
          type="search"
          aria-label="Search the shelf"
          placeholder="Vehicle, engine, sensor …"
          value={search()}
          onInput={(event) => setSearch(event.currentTarget.value)}
        />
        <select aria-label="Which" value={kind()} onChange={(event) => setKind(event.currentTarget.value as Kind)}>
          <option value="all">All</option>
          <option value="kept">Kept here</option>
          <option value="simulated">Simulated</option>
        </select>
      </div>
      <Show when={offers().length > 0} fallback={<p class="soft">No trace on the shelf matches.</p>}>
        <ul class="lines">
          <For each={offers().slice(0, mostShown)}>
            {(offer) => (
              <OfferLine
                offer={offer}
                isLaid={reference()?.key === keyOf(offer.choice)}
                mayJoin={reference() !== null}
                onCompare={() => props.onChoose(offer.choice)}
                onDone={props.onDone}
              />
            )}
          </For>
        </ul>
      </Show>
      <Show when={offers().length > mostShown}>
        <p class="soft">{offers().length - mostShown} more: search to narrow them.</p>
      </Show>
    </section>
  );
};

type Done = { readonly ok: true } | { readonly ok: false; readonly problem: Problem };

const isSimulated = (one: { readonly isSimulated: boolean }) => one.isSimulated;

const OfferLine: Component<{
  readonly offer: Offer;
  readonly isLaid: boolean;
  /** Something is compared, so a usual band can take it in. */
  readonly mayJoin: boolean;
  readonly onCompare: () => void;
  readonly onDone: (outcome: Done) => void;
}> = (props) => {
  const { band } = useComparing();
  const kept = () => (props.offer.choice.kind === "shelf" ? props.offer.choice.trace : null);
  return (
    <li class="offer">
      <div class="grow">
        <strong>{props.offer.name}</strong>
        <Show when={props.offer.isSimulated}>
          <span class="tag">simulated</span>
        </Show>
        <p>{facts(props.offer)}</p>
        <p class="soft">{props.offer.conditions}</p>
        <p class="soft">
          Good, says {props.offer.saidBy || "nobody"}: {props.offer.because || "no reason given."}
        </p>
        <Show when={kept()}>{(trace) => <KeptWays trace={trace()} onDone={props.onDone} />}</Show>
      </div>
      <div class="offer-ways">
        <button
          type="button"
          aria-label={`Compare with ${props.offer.name}`}
          disabled={props.isLaid}
          onClick={props.onCompare}
        >
          {props.isLaid ? "On the bench" : "Compare"}
        </button>
        <Show when={props.mayJoin && !props.isLaid}>
          <button
            type="button"
            aria-label={`${props.offer.name} in the usual band`}
            aria-pressed={band.has(props.offer.choice)}
            onClick={() => band.toggle(keyOf(props.offer.choice))}
          >
            In the band
          </button>
        </Show>
      </div>
    </li>
  );
};

/** What can be done with a trace that was kept here. */
const KeptWays: Component<{ readonly trace: ShelfTrace; readonly onDone: (outcome: Done) => void }> = (props) => {
  const ground = useGround();
  const storekeeper = useStorekeeper();
  return (
    <div class="row">
      <button
        type="button"
        class="plain"
        aria-label={`Export ${props.trace.name}`}
        onClick={async () => props.onDone(await exportTrace(props.trace, ground))}
      >
        Export
      </button>
      <SureButton
        ask="Take off the shelf"
        label={`Take ${props.trace.name} off the shelf`}
        sure="Take it off for good"
        onSure={async () => props.onDone(await storekeeper.takeOffShelf(props.trace))}
      />
    </div>
  );
};

function facts({ vehicleFamily, engineSize, sensorKind, catalystPosition }: ShelfWords): string {
  const litres = litresOf(engineSize);
  const size = litres === null ? engineSize : sizeText(litres);
  return [vehicleFamily, size, sensorKind, catalystPosition].filter(Boolean).join(" · ");
}
