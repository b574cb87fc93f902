// Data to take along: samples of the span in view or chosen, and its readings.

import { type Component, createSignal } from "solid-js";
import { useGround } from "../core/ground.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { saveFile } from "../parts/save-file.ts";
import { readingsCsv, readingsJson } from "./readings-file.ts";

export const ExportSheet: Component<{ readonly onClose: () => void }> = (props) => {
  const { service, summary, view, span, traces, readings, notices, underWay } = useGround();
  const [all, setAll] = createSignal(false);
  const chosen = () => (all() ? summary()!.span : (span() ?? view.view()));
  const stem = () => (summary()?.name ?? "recording").replace(/[.][\w.]+$/, "");
  const saveSamples = async (format: "csv" | "npy") => {
    const capture = summary();
    if (!capture) return;
    const channelIds = [...traces.windows().keys()];
    const request = { take: capture.take, channelIds, span: chosen(), format };
    const name = `${stem()}-span.${format}`;
    props.onClose();
    const outcome = await underWay.follow(`Writing ${name}`, (watched) => service.saveSpan(request, watched));
    if (outcome.ok) saveFile(outcome.value, name);
    else notices.show(outcome.problem);
  };
  const saveReadings = (format: "csv" | "json") => {
    const inSpan = readings.inSpan();
    if (!inSpan) return;
    const text =
      format === "csv" ? readingsCsv(inSpan, readings.answered()) : readingsJson(inSpan, readings.answered());
    saveFile(
      new Blob([text], { type: format === "csv" ? "text/csv" : "application/json" }),
      `${stem()}-readings.${format}`,
    );
    props.onClose();
  };
  return (
    <Dialog title="Save data" narrow onClose={props.onClose}>
      <h3>Samples of the channels shown, as corrected</h3>
      <label class="check">
        <input type="checkbox" checked={all()} onChange={(event) => setAll(event.currentTarget.checked)} />
        The whole recording, not only the span {span() ? "chosen" : "in view"}
      </label>
      <div class="row">
        <button type="button" onClick={() => void saveSamples("csv")}>
          Samples as CSV
        </button>
        <button type="button" onClick={() => void saveSamples("npy")}>
          Samples as .npy
        </button>
      </div>
      <h3>Readings of the span {span() ? "chosen" : "in view"}, and the lift-offs</h3>
      <div class="row">
        <button type="button" disabled={!readings.inSpan()} onClick={() => saveReadings("csv")}>
          Readings as CSV
        </button>
        <button type="button" disabled={!readings.inSpan()} onClick={() => saveReadings("json")}>
          Readings as JSON
        </button>
      </div>
    </Dialog>
  );
};
