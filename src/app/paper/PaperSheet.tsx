// The job on paper: from the complaint to the proof, one page for each step, in the order of the work.

import { type Component, For, Match, Switch } from "solid-js";
import { evidenceOf } from "../../job/edits/paper-edits.ts";
import { openItems } from "../../job/evidence/checklist.ts";
import type { EvidenceItem } from "../../job/evidence/evidence.ts";
import { CodesPage } from "../codes/CodesPage.tsx";
import { useComparing } from "../comparing/comparing.ts";
import { useGround } from "../core/ground.ts";
import { type PaperPage, paperPages, useSheets } from "../core/sheets.ts";
import { EvidencePage } from "../evidence/EvidencePage.tsx";
import { FramePage } from "../freeze-frame/FramePage.tsx";
import { handOver } from "../hand-over/hand-over.ts";
import { IntakePage } from "../intake/IntakePage.tsx";
import { MonitorsPage } from "../monitors/MonitorsPage.tsx";
import { Dialog } from "../parts/Dialog.tsx";
import { RepairPage } from "../repair/RepairPage.tsx";
import { RuledOutPage } from "../ruled-out/RuledOutPage.tsx";
import "./paper.css";

const names: Readonly<Record<PaperPage, string>> = {
  intake: "Complaint and car",
  codes: "Codes",
  evidence: "Before clearing",
  frame: "Freeze frame",
  monitors: "Monitor results",
  ruledOut: "Other causes",
  repair: "Repair and proof",
};

/** Where each item of the checklist is saved. */
const pageOf: Readonly<Partial<Record<EvidenceItem, PaperPage>>> = {
  codes: "codes",
  pending: "codes",
  permanent: "codes",
  frame: "frame",
  monitors: "monitors",
};

export const PaperSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const sheets = useSheets();
  const ground = useGround();
  const { desk } = ground;
  const comparing = useComparing();
  const page = sheets.page;
  const open = () => openItems(evidenceOf(desk.job(), "before")).length;
  return (
    <Dialog title={`Job papers: ${desk.job().name}`} wide onClose={props.onClose}>
      <div class="paper">
        <nav aria-label="Pages of the job">
          <For each={paperPages}>
            {(name) => (
              <button
                type="button"
                aria-current={page() === name ? "page" : undefined}
                onClick={() => sheets.turn(name)}
              >
                {names[name]}
                {name === "evidence" && open() > 0 ? <span class="count">{open()} open</span> : null}
              </button>
            )}
          </For>
          <hr />
          <button type="button" onClick={() => sheets.open("customer")}>
            Customer sheet
          </button>
          <button type="button" onClick={() => void handOver(ground, comparing)}>
            Hand over as a folder
          </button>
        </nav>
        <div class="paper-page">
          <Switch>
            <Match when={page() === "intake"}>
              <IntakePage />
            </Match>
            <Match when={page() === "codes"}>
              <CodesPage />
            </Match>
            <Match when={page() === "evidence"}>
              <EvidencePage onGo={(item) => sheets.turn(pageOf[item] ?? "evidence")} />
            </Match>
            <Match when={page() === "frame"}>
              <FramePage onShow={props.onClose} />
            </Match>
            <Match when={page() === "monitors"}>
              <MonitorsPage />
            </Match>
            <Match when={page() === "ruledOut"}>
              <RuledOutPage />
            </Match>
            <Match when={page() === "repair"}>
              <RepairPage />
            </Match>
          </Switch>
        </div>
      </div>
    </Dialog>
  );
};
