// What the question screen shows: the first rows as understood, everything that was assumed, and what only the user can know.

import { type Problem, settle } from "../problem.ts";
import type { Seconds } from "../signal/numbers/units.ts";
import { countOf, timeAt } from "../signal/series/series.ts";
import { chosen, gunzipped, isGzip, isNpz, isZip, likelyMembers, opened } from "./archives/archive-readers.ts";
import { membersOf } from "./archives/zip.ts";
import { memorySource } from "./bytes/sources.ts";
import type { Bank, Capture, Channel, Remark, Role } from "./model/capture.ts";
import { statesType } from "./model/layout.ts";
import type { ByteSource, ReadChoices, ReadReport } from "./model/reader.ts";
import { RemarkBook } from "./model/remarks.ts";
import {
  disorderQuestion,
  layoutQuestion,
  memberQuestion,
  noTimeQuestion,
  type Question,
  type RowsRead,
  rivalQuestion,
  roleQuestion,
  scaleQuestion,
  textQuestions,
} from "./questions.ts";
import { readCapture, readers } from "./readers.ts";
import type { ColumnPlan, TextPlan } from "./text/plan.ts";
import { sniffText } from "./text/sniff.ts";
import { formatOf, textReader } from "./text/text-reader.ts";
import { inTwoBytes } from "./text/utf32.ts";

export interface PreviewColumn {
  /** Key for ReadChoices.roles and .units. */
  readonly name: string;
  readonly fileUnit: string;
  /** "left-out" holds no numbers, or counts rows. */
  readonly use: "time" | "channel" | "left-out";
  /** Unit its numbers are taken to be in. */
  readonly unit: string;
  /** Unit of `rows`. */
  readonly rowsUnit: string;
  readonly role: Role;
  readonly bank: Bank;
}

/** Everything assumed of a text; each may be changed by the choice of the same name. */
export interface Assumed {
  readonly delimiter: string;
  readonly decimalMark: "." | ",";
  readonly hasHeader: boolean;
  /** Name of the time column; null where steps are even. */
  readonly timeColumn: string | null;
  /** Seconds in one unit of a time in plain numbers; null for clocks and dates. */
  readonly timeUnit: Seconds | null;
  /** "seconds", "clock", "date and clock", "even steps": in plain words. */
  readonly timeForm: string;
  readonly rate: number | null;
  readonly encoding: string;
}

export interface Preview {
  readonly format: string;
  readonly columns: readonly PreviewColumn[];
  /** First rows as understood: seconds, then the channels in their order; null where missing. Channels with stamps of their own stand by number of sample. */
  readonly rows: readonly (readonly (number | null)[])[];
  /** First lines as they stand in the file, cells apart; empty for other formats. */
  readonly written: readonly (readonly string[])[];
  readonly assumed: Assumed | null;
  /** Only what is truly unclear; empty opens without asking. */
  readonly questions: readonly Question[];
  readonly members: readonly { readonly name: string; readonly size: number }[];
  /** Why it would not open with these choices; null when it would. */
  readonly problem: Problem | null;
  readonly remarks: readonly Remark[];
  /** The same for files written alike: choices may be remembered under it. */
  readonly likeness: string;
}

const shownRows = 20;
const headBytes = 256 * 1024;
const quiet: ReadReport = { progress: () => {}, signal: new AbortController().signal };

/** Looks at a recording as it would be read with `choices`. What is wrong with it is told in `problem`, never thrown. */
export async function previewCapture(source: ByteSource, choices: ReadChoices): Promise<Preview> {
  const inner = await settle(() => innermost(source, choices));
  if (!inner.ok) return closed(inner.problem, [], false);
  const { source: content, members, problem } = inner.value;
  if (content === null) return closed(problem!, members, true);
  const head = await settle(() => content.read(0, headBytes));
  if (!head.ok) return closed(head.problem, members, false);
  const isText =
    (choices.layout === undefined || !statesType(choices.layout)) &&
    readers.find(({ recognises }) => recognises(head.value)) === textReader;
  const preview = isText ? await textPreview(content, head.value, choices) : await otherPreview(content, choices);
  return { ...preview, members };
}

interface Inner {
  readonly source: ByteSource | null;
  readonly members: Preview["members"];
  /** Why there is no source. */
  readonly problem?: Problem;
}

/** What lies inside gzip and zip; null where a member has to be chosen first. */
async function innermost(source: ByteSource, choices: ReadChoices): Promise<Inner> {
  const head = await source.read(0, 4);
  if (isGzip(head)) return { source: await looked((most) => gunzipped(source, unpacking, most)), members: [] };
  if (!isZip(head)) return { source, members: [] };
  const all = await membersOf(source);
  if (isNpz(all)) return { source, members: [] };
  const members = all.map(({ name, size }) => ({ name, size }));
  const member = await settle(() => chosen(all, choices.member, source.name));
  if (!member.ok && member.problem.code !== "unclear") chosen(all, choices.member, source.name);
  if (!member.ok) return { source: null, members, problem: member.problem };
  return { source: await looked((most) => opened(source, member.value, unpacking, most)), members };
}

const unpacking = { report: quiet, remarks: new RemarkBook() };

/** The head is enough of a text; anything else is unpacked whole. */
async function looked(unpackTo: (most?: number) => Promise<ByteSource>): Promise<ByteSource> {
  const head = await unpackTo(headBytes + 1);
  const isText = textReader.recognises(await head.read(0, 4096));
  return head.size <= headBytes || isText ? head : unpackTo();
}

function closed(problem: Problem, members: Preview["members"], isToChoose: boolean): Preview {
  const questions = isToChoose ? [memberQuestion(likelyMembers(members).map(({ name }) => name))] : [];
  return {
    format: members.length > 0 ? "zip" : "unknown",
    columns: [],
    rows: [],
    written: [],
    assumed: null,
    questions,
    members,
    problem,
    remarks: [],
    likeness: "",
  };
}

async function otherPreview(source: ByteSource, choices: ReadChoices): Promise<Omit<Preview, "members">> {
  const outcome = await settle(() => readCapture(source, choices, quiet));
  const capture = outcome.ok ? outcome.value : null;
  const asks = !outcome.ok && outcome.problem.code === "no-time";
  const asksLayout = !outcome.ok && (outcome.problem.code === "bad-layout" || outcome.problem.code === "unknown-form");
  const questions: Question[] = asks ? [noTimeQuestion] : asksLayout ? [layoutQuestion] : [];
  if (capture?.remarks.some(({ code }) => code === "parts-of-full-scale")) questions.push(scaleQuestion);
  return {
    format: capture?.format ?? "unknown",
    columns: capture ? capture.channels.map(columnOf) : [],
    rows: capture ? rowsOf(capture) : [],
    written: [],
    assumed: null,
    questions: [
      ...questions,
      ...(await lostRows(source, choices, outcome.ok ? null : outcome.problem)),
      ...channelQuestions(capture, choices),
    ],
    problem: outcome.ok ? null : outcome.problem,
    remarks: capture?.remarks ?? [],
    likeness: capture ? capture.channels.map(({ name }) => name).join("|") : "",
  };
}

/** Files without a header are like no other: what was said of one, such as its rate, need not hold for the next. */
const likenessOf = (headers: readonly string[]): string =>
  headers.every((one) => one === "") ? "" : headers.join("|");

async function textPreview(
  written: ByteSource,
  writtenHead: Uint8Array,
  choices: ReadChoices,
): Promise<Omit<Preview, "members">> {
  const source = inTwoBytes(written, writtenHead);
  const head = source === written ? writtenHead : await source.read(0, headBytes / 2);
  const planned = await settle(() => sniffText(head, choices, source.size));
  const plan = planned.ok ? planned.value : null;
  const cut = source.size > head.length ? head.subarray(0, Math.max(1, head.lastIndexOf(10) + 1)) : head;
  const outcome = await settle(() => readCapture(memorySource(cut, source.name), choices, quiet));
  const stopgap = outcome.ok
    ? outcome
    : await settle(() => readCapture(memorySource(cut, source.name), { ...choices, rate: 1 }, quiet));
  const capture = stopgap.ok ? stopgap.value : null;
  const lost = await lostRows(memorySource(cut, source.name), choices, outcome.ok ? null : outcome.problem);
  const problem = planned.ok ? (outcome.ok ? null : outcome.problem) : planned.problem;
  return {
    format: plan ? formatOf(plan.delimiter) : "text",
    columns: plan ? textColumns(plan, capture) : [],
    rows: capture ? rowsOf(capture).map((row) => (outcome.ok ? row : [null, ...row.slice(1)])) : [],
    written: plan ? [...plan.table.preamble, ...plan.table.headerRows].slice(-5) : [],
    assumed: plan ? assumedOf(plan) : null,
    questions: plan ? [...textQuestions(plan), ...lost, ...channelQuestions(capture, choices)] : [],
    problem,
    remarks: capture?.remarks ?? [],
    likeness: plan ? likenessOf(plan.table.columns.map(({ header }) => header.trim().toLowerCase())) : "",
  };
}

const channelQuestions = (capture: Capture | null, choices: ReadChoices): Question[] => [
  ...roleQuestion(capture),
  ...rivalQuestion(capture, choices),
];

/** Where rows fall out by their times: the file read in both ways, to be told side by side. */
async function lostRows(source: ByteSource, choices: ReadChoices, problem: Problem | null): Promise<Question[]> {
  if (problem?.code !== "rows-lost") return [];
  const read = async (disorder: NonNullable<ReadChoices["disorder"]>): Promise<RowsRead | null> => {
    const outcome = await settle(() => readCapture(source, { ...choices, disorder }, quiet));
    const time = outcome.ok ? outcome.value.channels[0]?.series.time : undefined;
    const rows = time ? countOf(time) : 0;
    return time && rows > 0 ? { rows, seconds: timeAt(time, rows - 1) } : null;
  };
  return [disorderQuestion(problem.what, await read("leave-out"), await read("sort"))];
}

function assumedOf({ table: { time, columns, headerRows }, ...plan }: TextPlan): Assumed {
  const { form } = time;
  const forms = {
    number: "numbers",
    clock: "clock",
    instant: "date and clock",
    fields: "several columns",
    rate: "even steps",
    none: "not known",
  } as const;
  return {
    delimiter: plan.delimiter,
    decimalMark: plan.joinPairs ? "," : plan.decimalMark,
    hasHeader: headerRows.length > 0,
    timeColumn: time.column === null ? null : columns[time.column]!.name,
    timeUnit: form.kind === "number" ? form.unit : null,
    timeForm: forms[form.kind],
    rate: form.kind === "rate" ? form.rate : null,
    encoding: plan.encoding,
  };
}

function textColumns(plan: TextPlan, capture: Capture | null): PreviewColumn[] {
  if (plan.table.layout === "long") return capture ? capture.channels.map(columnOf) : [];
  const channels = new Map(capture?.channels.map((channel) => [channel.id, channel]));
  return plan.table.columns.map((column, i) => {
    const channel = channels.get(`c${i + 1}`);
    return channel ? columnOf(channel) : withoutChannel(column);
  });
}

function withoutChannel({ name, fileUnit, use }: ColumnPlan): PreviewColumn {
  const isTime = use === "time" || use === "date";
  const unit = isTime ? "s" : "";
  return { name, fileUnit, use: isTime ? "time" : "left-out", unit, rowsUnit: unit, role: "other", bank: 1 };
}

function columnOf({ name, unit, fileUnit, assumedUnit, role, bank }: Channel): PreviewColumn {
  return { name, fileUnit, use: "channel", unit: assumedUnit ?? fileUnit, rowsUnit: unit, role, bank };
}

function rowsOf({ channels }: Capture): (number | null)[][] {
  const count = Math.min(shownRows, Math.max(0, ...channels.map(({ series }) => series.samples.length)));
  const longest = channels.reduce((a, b) => (b.series.samples.length > a.series.samples.length ? b : a));
  return Array.from({ length: count }, (_, i) => [
    timeAt(longest.series.time, i),
    ...channels.map(({ series }) => {
      const value = series.samples[i];
      return value === undefined || Number.isNaN(value) ? null : value;
    }),
  ]);
}
