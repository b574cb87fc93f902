// What is in force and was not in the file, as sentences for the title block: nobody may be misled by a sheet.

import type { CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import { linesOf } from "../../drawing/layer.ts";
import { withoutStop } from "../../exhaust/terms/words.ts";
import { correctionText, settingsOf } from "../../job/edits/channels.ts";
import { filtersOn, filterText } from "../../job/edits/filters.ts";
import type { CaptureRecord } from "../../job/record/job.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import { storedUnit } from "../../signal/written/writing.ts";
import { roleWords } from "../words.ts";

export interface InForce {
  readonly record: CaptureRecord;
  readonly summary: CaptureSummary;
  readonly lanes: readonly LaneLook[];
}

/** One sentence each; says so where nothing was changed. */
export function settingsInForce(given: InForce): string[] {
  const channels = shownChannels(given).flatMap((channel) => channelSentences(given.record, channel));
  const isFiltered = shownChannels(given).some(({ id }) => settingsOf(given.record.bench, id).filter);
  return [
    ...(channels.length === 0 ? [isFiltered ? "No channel corrected." : "All channels as recorded."] : channels),
    ...choiceSentences(given.record),
    ...scaleSentences(given.lanes),
    ...filterSentences(given.record, shownChannels(given)),
    ...editSentences(given.record),
    ...given.summary.warnings.map(({ text }) => `Warning: ${withoutStop(text)}.`),
  ];
}

/** Of the recording itself. */
export function shownChannels({ summary, lanes }: Pick<InForce, "summary" | "lanes">): ChannelSummary[] {
  const shown = new Set(lanes.flatMap((lane) => linesOf(lane).map(({ channelId }) => channelId)));
  return summary.channels.filter(({ id }) => shown.has(id));
}

function channelSentences({ bench }: CaptureRecord, { id, name, unit }: ChannelSummary): string[] {
  const settings = settingsOf(bench, id);
  const correction = correctionText(settings, storedUnit(settings.unit ?? unit));
  const inverted = settings.gain < 0 ? " (inverted)" : "";
  const said = [
    correction === "" ? "" : `${correction}${inverted}`,
    settings.role === undefined ? "" : `taken for: ${roleWords[settings.role].toLowerCase()}`,
    settings.bank === undefined ? "" : `bank ${settings.bank}`,
    settings.unit === undefined ? "" : `unit stated as ${storedUnit(settings.unit) || "none"}`,
  ].filter((part) => part !== "");
  return said.length === 0 ? [] : [`“${name}” by hand: ${said.join(", ")}.`];
}

function filterSentences({ bench }: CaptureRecord, channels: readonly ChannelSummary[]): string[] {
  const filters = filtersOn(bench);
  const through = channels.flatMap(({ id, name }) => (filters[id] ? [`“${name}”: ${filterText(filters[id])}`] : []));
  if (through.length === 0) return ["No filter."];
  return [`Drawn through a filter, pale behind it as recorded: ${through.join("; ")}.`];
}

function choiceSentences({ choices }: CaptureRecord): string[] {
  return [
    choices.rate === undefined ? "" : `Rate stated by hand: ${choices.rate} per second.`,
    choices.timeUnit === undefined ? "" : `Time unit stated by hand: ${choices.timeUnit} s.`,
    choices.missing === undefined ? "" : `${choices.missing} read as no value.`,
    choices.rowsAreSimultaneous ? "All values of a row taken as simultaneous." : "",
  ].filter((sentence) => sentence !== "");
}

function scaleSentences(lanes: readonly LaneLook[]): string[] {
  const held = lanes.filter(({ scale }) => scale !== "fit");
  if (held.length === 0) return ["Scales fitted to what the sheet shows."];
  const list = held.map(({ title, scale }) => `${title} ${scale[0]} … ${scale[1]}`).join("; ");
  return [`Scales held: ${list}.`, ...(held.length < lanes.length ? ["Other scales fitted."] : [])];
}

function editSentences({ bench }: CaptureRecord): string[] {
  const count = (kind: string) => bench.liftOffEdits.filter((edit) => edit.kind === kind).length;
  const parts = [
    [count("add"), "added"],
    [count("move"), "moved"],
    [count("reject"), "left out"],
  ].filter(([number]) => number !== 0);
  return parts.length === 0 ? [] : [`Lift-offs by hand: ${parts.map((part) => part.join(" ")).join(", ")}.`];
}
