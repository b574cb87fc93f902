// The customer's sheet: what is typed for it stays in the job; given away, it is frozen as a revision. It prints on one page.

import { type Component, createMemo, createSignal, For, Show } from "solid-js";
import { Portal } from "solid-js/web";
import type { Comparison } from "../../exhaust/comparing/comparison.ts";
import type { Finding, LiftOffSummary } from "../../exhaust/terms/analysis.ts";
import { emptyDraft } from "../../job/edits/paper-edits.ts";
import type { FrozenSheet, Job, SheetDraft } from "../../job/record/job.ts";
import { customerSheet } from "../../report/customer/customer-sheet.ts";
import { dateText, localInstant } from "../../signal/written/date-text.ts";
import { PrintedExhibits } from "../exhibits/PrintedExhibits.tsx";
import { remember, remembered } from "../exhibits/remembered.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { PickField, TextField } from "../parts/Fields.tsx";
import { TickBoxes } from "../parts/TickBoxes.tsx";
import { ChoiceRows } from "./ChoiceRows.tsx";
import { CustomerPage } from "./CustomerPage.tsx";
import "../exhibits/exhibit.css";
import "./customer.css";
import { newId } from "../../job/record/new-id.ts";

export interface CustomerSheetProps {
  readonly job: Job;
  readonly findings: readonly Finding[];
  readonly liftOff: LiftOffSummary | null;
  readonly repair: Comparison | null;
  /** Id of the recording judged. */
  readonly judged: string | null;
  /** What it tells is still being measured: until then nothing is given away. */
  readonly isMeasuring: boolean;
  readonly loadBlob: (name: string) => Promise<Blob | null>;
  readonly onDraft: (part: Partial<SheetDraft>) => void;
  readonly onKeep: (sheet: Omit<FrozenSheet, "revision">) => void;
  readonly onClose: () => void;
}

export const CustomerSheetDialog: Component<CustomerSheetProps> = (props) => {
  const [fits, setFits] = createSignal(true);
  const [withExhibits, setWithExhibits] = createSignal(false);
  const shown = createShown(props);
  return (
    <Dialog
      title="Customer sheet"
      wide
      onClose={props.onClose}
      foot={
        <>
          <Show when={props.isMeasuring}>
            <p class="grow caution">
              The recording is still being measured: it can be given away when its answer stands.
            </p>
          </Show>
          <Show when={!fits()}>
            <p class="grow caution">It does not fit one page at 8 pt. Shorten your own words or the choices.</p>
          </Show>
          <button type="button" onClick={() => props.onClose()}>
            Close
          </button>
          <Show when={!shown.frozen()}>
            <button type="button" disabled={props.isMeasuring} onClick={shown.keep}>
              Give it away as revision {(props.job.sheets?.length ?? 0) + 1}
            </button>
          </Show>
          <button type="button" class="main" onClick={() => window.print()}>
            Print
          </button>
        </>
      }
    >
      <div class="exhibit-maker sheet-maker">
        <CustomerPage sheet={shown.sheet()} mark={shown.mark()} loadBlob={props.loadBlob} onFit={setFits} />
        <div class="exhibit-fields">
          <SheetFields {...props} shown={shown} />
          <label class="check">
            <input
              type="checkbox"
              checked={withExhibits()}
              disabled={props.job.exhibits.length === 0}
              onChange={(event) => setWithExhibits(event.currentTarget.checked)}
            />
            Print the exhibits too, one a page
          </label>
        </div>
      </div>
      <Portal ref={(place) => place.classList.add("print-only")}>
        <CustomerPage sheet={shown.sheet()} mark={shown.mark()} loadBlob={props.loadBlob} onFit={() => undefined} />
        <Show when={withExhibits()}>
          <PrintedExhibits exhibits={props.job.exhibits} loadBlob={props.loadBlob} />
        </Show>
      </Portal>
    </Dialog>
  );
};

type Shown = ReturnType<typeof createShown>;

/** The draft, or a revision as it was given away. */
function createShown(props: CustomerSheetProps) {
  const now = localInstant(new Date());
  const [looked, look] = createSignal("");
  const draft = () => ({ ...emptyDraft, workshop: remembered("workshop"), ...props.job.sheet });
  const fresh = createMemo(() => {
    const { findings, liftOff, repair, judged } = props;
    return customerSheet({ job: { ...props.job, sheet: draft() }, findings, liftOff, repair, judged, now });
  });
  const frozen = () => props.job.sheets?.find(({ id }) => id === looked()) ?? null;
  const mark = () => {
    const old = frozen();
    return old ? `revision ${old.revision}, ${dateText(localInstant(new Date(old.madeAt)))}` : "draft";
  };
  const keep = () => {
    const id = newId();
    props.onKeep({ ...fresh(), id, madeAt: new Date().toISOString() });
    look(id);
  };
  return { looked, look, draft, frozen, sheet: () => frozen() ?? fresh(), mark, keep };
}

/** Which of them is shown, and what can be typed into a draft. */
const SheetFields: Component<CustomerSheetProps & { readonly shown: Shown }> = (props) => (
  <>
    <PickField
      label="Shown"
      value={props.shown.looked()}
      options={[
        ["", "the draft"],
        ...(props.job.sheets ?? []).map((one) => [one.id, `revision ${one.revision}, as given away`] as const),
      ]}
      onChange={props.shown.look}
    />
    <Show when={!props.shown.frozen()} fallback={<p class="soft">A sheet that was given away stays as it is.</p>}>
      <DraftFields draft={props.shown.draft()} job={props.job} onDraft={props.onDraft} />
    </Show>
  </>
);

const approvalFields: readonly (readonly [keyof SheetDraft["approval"], string])[] = [
  ["chosen", "Chosen"],
  ["amount", "Up to which amount"],
  ["by", "Approved by"],
  ["how", "How (signed, by telephone)"],
];

const DraftFields: Component<{
  readonly draft: SheetDraft;
  readonly job: Job;
  readonly onDraft: CustomerSheetProps["onDraft"];
}> = (props) => {
  const approve = (part: Partial<SheetDraft["approval"]>) =>
    props.onDraft({ approval: { ...props.draft.approval, ...part } });
  /** It stands on the next customer's sheet as well. */
  const sayWorkshop = (workshop: string) => {
    remember("workshop", workshop);
    props.onDraft({ workshop });
  };
  return (
    <>
      <TextField
        label="Your own words"
        rows={4}
        most={1200}
        value={props.draft.words}
        onChange={(words) => props.onDraft({ words })}
      />
      <ChoiceRows choices={props.draft.choices} onChange={(choices) => props.onDraft({ choices })} />
      <h3>Approval</h3>
      <For each={approvalFields}>
        {([key, label]) => (
          <TextField label={label} value={props.draft.approval[key]} onChange={(value) => approve({ [key]: value })} />
        )}
      </For>
      <TextField label="On" type="date" value={props.draft.approval.at} onChange={(at) => approve({ at })} />
      <TickBoxes ticks={props.draft.ticks} vehicle={props.job.vehicle} onChange={(ticks) => props.onDraft({ ticks })} />
      <PickField
        label="Paper"
        value={props.draft.paper}
        options={[
          ["A4", "A4"],
          ["Letter", "Letter"],
        ]}
        onChange={(paper) => props.onDraft({ paper })}
      />
      <TextField label="Workshop" value={props.draft.workshop} onChange={sayWorkshop} />
    </>
  );
};
