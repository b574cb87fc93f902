// The customer's page before it is printed: what was checked by hand, what may be named, words of one's own.

import { type Component, createMemo, createSignal, createUniqueId, For } from "solid-js";
import { Portal } from "solid-js/web";
import {
  allNotDone,
  type CustomerFacts,
  customerSheet,
  type HandCheck,
  type HandCheckId,
  handChecks,
} from "../../report/customer/customer-sheet.ts";
import { localInstant } from "../../report/exhibit/wording.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { CustomerPage } from "./CustomerPage.tsx";
import "../exhibits/exhibit.css";
import "./customer.css";
import { rememberedName } from "../exhibits/remembered.ts";
import type { CustomerSheetProps } from "../exhibits/types.ts";
import { TickBoxes } from "../parts/TickBoxes.tsx";

const resultWords: Readonly<Record<HandCheck["result"], string>> = {
  "not-done": "not done",
  "in-order": "in order",
  "at-fault": "fault found",
};

type Said = Pick<CustomerFacts, "checks" | "ticks" | "words" | "workshop">;

export const CustomerSheetDialog: Component<CustomerSheetProps> = (props) => {
  const [said, setSaid] = createSignal<Said>({
    checks: allNotDone,
    ticks: { plate: false, vin: false, customer: false },
    words: "",
    workshop: rememberedName(),
  });
  const [now] = createSignal(localInstant(new Date()));
  const sheet = createMemo(() => {
    const { job, findings, liftOff, repair } = props;
    return customerSheet({ job, findings, liftOff, repair, now: now(), ...said() });
  });
  const say = (part: Partial<Said>) => setSaid((before) => ({ ...before, ...part }));
  const check = (id: HandCheckId, result: HandCheck["result"]) =>
    say({ checks: said().checks.map((one) => (one.id === id ? { id, result } : one)) });
  const [words, workshop] = [createUniqueId(), createUniqueId()];
  return (
    <Dialog
      title="Customer sheet"
      wide
      onClose={props.onClose}
      foot={
        <>
          <button type="button" onClick={() => props.onClose()}>
            Close
          </button>
          <button type="button" class="main" onClick={() => window.print()}>
            Print
          </button>
        </>
      }
    >
      <div class="exhibit-maker">
        <CustomerPage sheet={sheet()} loadBlob={props.loadBlob} />
        <div class="exhibit-fields">
          <div class="field">
            <label for={words}>Your own words</label>
            <textarea
              id={words}
              rows={4}
              maxLength={1200}
              value={said().words}
              onInput={(event) => say({ words: event.currentTarget.value })}
            />
          </div>
          <h3>Checked by hand</h3>
          <For each={said().checks}>
            {({ id, result }) => (
              <label class="field">
                <span>{handChecks[id]}</span>
                <select onChange={(event) => check(id, event.currentTarget.value as HandCheck["result"])}>
                  <For each={Object.entries(resultWords)}>
                    {([value, name]) => (
                      <option value={value} selected={value === result}>
                        {name}
                      </option>
                    )}
                  </For>
                </select>
              </label>
            )}
          </For>
          <TickBoxes ticks={said().ticks} vehicle={props.job.vehicle} onChange={(ticks) => say({ ticks })} />
          <div class="field">
            <label for={workshop}>Workshop</label>
            <input
              id={workshop}
              autocomplete="organization"
              value={said().workshop}
              onInput={(event) => say({ workshop: event.currentTarget.value })}
            />
          </div>
        </div>
      </div>
      <Portal ref={(place) => place.classList.add("print-only")}>
        <CustomerPage sheet={sheet()} loadBlob={props.loadBlob} />
      </Portal>
    </Dialog>
  );
};
