// What is in force and was not in the file, as sentences for the title block: nobody may be misled by a sheet.

import type { CaptureSummary, ChannelSummary } from "../../../workers/protocol.ts";
import type { ReadChoices } from "../../capture/model/reader.ts";
import { remarkText } from "../../capture/model/remarks.ts";
import type { ChannelCorrection, Corrections } from "../../capture/model/take.ts";
import { linesOf } from "../../drawing/layer.ts";
import { withoutStop } from "../../exhaust/terms/words.ts";
import { correctionText, settingsOf, untouched } from "../../job/edits/channels.ts";
import { filtersOn, filterText } from "../../job/edits/filters.ts";
import type { BenchState, CaptureRecord } from "../../job/record/job.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import { storedUnit } from "../../signal/written/writing.ts";
import { roleWords } from "../words.ts";
import type { DrawnBeside } from "./drawn-beside.ts";

export interface InForce {
  readonly record: CaptureRecord;
  readonly summary: CaptureSummary;
  readonly lanes: readonly LaneLook[];
  readonly beside?: readonly DrawnBeside[];
}

/** One sentence each; says so where nothing was changed. */
export function settingsInForce(given: InForce): string[] {
  const { record, summary, lanes, beside = [] } = given;
  const shown = shownChannels(given);
  const own = { choices: record.choices, corrections: record.bench.channels, channels: shown };
  const channels = [
    ...channelSentences(own),
    ...beside.flatMap(({ take, ...one }) => channelSentences({ ...take, ...one })),
  ];
  const isFiltered = shown.some(({ id }) => settingsOf(record.bench, id).filter);
  return [
    ...(channels.length === 0 ? [isFiltered ? "No channel corrected." : "All channels as recorded."] : channels),
    ...choiceSentences(record.choices),
    ...scaleSentences(lanes),
    ...filterSentences(record, shown),
    ...editSentences(record.bench),
    ...beside.flatMap(besideSentences),
    ...summary.warnings.map((warning) => `Warning: ${withoutStop(remarkText(warning))}.`),
  ];
}

/** Of the recording itself. */
export function shownChannels({ summary, lanes }: Pick<InForce, "summary" | "lanes">): ChannelSummary[] {
  const shown = new Set(lanes.flatMap((lane) => linesOf(lane).map(({ channelId }) => channelId)));
  return summary.channels.filter(({ id }) => shown.has(id));
}

interface Corrected {
  readonly choices: ReadChoices;
  readonly corrections: Corrections;
  /** Those that are drawn. */
  readonly channels: readonly ChannelSummary[];
  /** The recording that holds them, where it is not the one on the bench. */
  readonly name?: string;
}

function filterSentences({ bench }: CaptureRecord, channels: readonly ChannelSummary[]): string[] {
  const filters = filtersOn(bench);
  const through = channels.flatMap(({ id, name }) => (filters[id] ? [`“${name}”: ${filterText(filters[id])}`] : []));
  if (through.length === 0) return ["No filter."];
  return [`Drawn through a filter, pale behind it as recorded: ${through.join("; ")}.`];
}

function channelSentences({ choices, corrections, channels, name: holder }: Corrected): string[] {
  const whose = holder === undefined ? "" : ` of ${holder}`;
  return channels.flatMap(({ id, name, unit }) => {
    const said = [
      ...correctionWords(corrections[id] ?? untouched, unit),
      ...openingWords(choices, name, corrections[id]),
    ];
    return said.length === 0 ? [] : [`“${name}”${whose} by hand: ${said.join(", ")}.`];
  });
}

function correctionWords({ role, bank, unit: stated, ...factors }: ChannelCorrection, unit: string): string[] {
  const correction = correctionText(factors, storedUnit(stated ?? unit));
  const inverted = factors.gain < 0 ? " (inverted)" : "";
  return [
    correction === "" ? "" : `${correction}${inverted}`,
    role === undefined ? "" : `taken for: ${roleWords[role].toLowerCase()}`,
    bank === undefined ? "" : `bank ${bank}`,
    stated === undefined ? "" : `unit stated as ${storedUnit(stated) || "none"}`,
  ].filter((part) => part !== "");
}

/** What was said of a column when its file was opened, unless it was said otherwise later. */
function openingWords({ roles, units }: ReadChoices, name: string, later?: ChannelCorrection): string[] {
  const [role, unit] = [own(roles, name), own(units, name)];
  return [
    role === undefined || later?.role !== undefined ? "" : `read as: ${roleWords[role].toLowerCase()}`,
    unit === undefined || later?.unit !== undefined ? "" : `read in ${storedUnit(unit) || "no unit"}`,
  ].filter((part) => part !== "");
}

/** A column may bear the name of what every object has. */
const own = <T>(said: Readonly<Record<string, T>> | undefined, name: string): T | undefined =>
  said && Object.hasOwn(said, name) ? said[name] : undefined;

function choiceSentences(choices: ReadChoices): string[] {
  return [
    choices.rate === undefined ? "" : `Rate stated by hand: ${choices.rate} per second.`,
    choices.timeUnit === undefined ? "" : `Time unit stated by hand: ${choices.timeUnit} s.`,
    choices.missing === undefined ? "" : `${choices.missing} read as no value.`,
    choices.rowsAreSimultaneous ? "All values of a row taken as simultaneous." : "",
  ].filter((sentence) => sentence !== "");
}

/** What counts of another recording beside its channels. */
function besideSentences({ name, take, edits }: DrawnBeside): string[] {
  const sentences = [...choiceSentences(take.choices), ...(edits ? editSentences(edits) : [])];
  return sentences.map((sentence) => `${name}: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`);
}

function scaleSentences(lanes: readonly LaneLook[]): string[] {
  const held = lanes.filter(({ scale }) => scale !== "fit");
  if (held.length === 0) return ["Scales fitted to what the sheet shows."];
  const list = held.map(({ title, scale }) => `${title} ${scale[0]} … ${scale[1]}`).join("; ");
  return [`Scales held: ${list}.`, ...(held.length < lanes.length ? ["Other scales fitted."] : [])];
}

function editSentences({
  liftOffEdits,
  stretchEdits = [],
}: Pick<BenchState, "liftOffEdits" | "stretchEdits">): string[] {
  const count = (kind: string) => liftOffEdits.filter((edit) => edit.kind === kind).length;
  const parts = [
    [count("add"), "added"],
    [count("move"), "moved"],
    [count("reject"), "left out"],
    [count("accept"), "taken in"],
  ].filter(([number]) => number !== 0);
  return [
    ...(parts.length === 0 ? [] : [`Lift-offs by hand: ${parts.map((part) => part.join(" ")).join(", ")}.`]),
    ...(stretchEdits.length === 0 ? [] : [`Stretches by hand: ${stretchEdits.length} put right.`]),
  ];
}
