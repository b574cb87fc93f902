// Reads delimited text of any dialect.

import { ProblemError } from "../../problem.ts";
import type { Samples } from "../../signal/series/series.ts";
import { type Growing, Growth } from "../growing/growth.ts";
import { assemble } from "../meaning/assemble.ts";
import type { Capture } from "../model/capture.ts";
import type { Column } from "../model/columns.ts";
import { type ByteSource, NotInParts, type ReadChoices, type Reader, type ReadReport } from "../model/reader.ts";
import { headerOnly, noNumbers, noTime, tooFewRows } from "../model/refusals.ts";
import { listed, RemarkBook } from "../model/remarks.ts";
import type { Recorded, Recording } from "../time/recorded.ts";
import type { WrittenStamps } from "../time/stamps.ts";
import { Blocks } from "./blocks.ts";
import { isKept, TableBody } from "./body.ts";
import { cleanRows } from "./clean-rows.ts";
import { dateOrderOver } from "./date-order.ts";
import { zeroShare } from "./encoding.ts";
import { type CodePage, codePages } from "./encodings.ts";
import type { Factor } from "./factors.ts";
import { isLong, LongBody } from "./long.ts";
import type { TablePlan, TextPlan } from "./plan.ts";
import { eachRow } from "./rows.ts";
import { headerLine, sniffSource } from "./sniff.ts";
import type { Delimiter } from "./split.ts";
import { hasZone } from "./time-cells.ts";
import { wrapOf } from "./time-fields.ts";
import { inTwoBytes, utf32Order } from "./utf32.ts";

export const textReader: Reader = { name: "delimited text", recognises, read };

const headBytes = 4096;

/** Any bytes that are mostly text; stands last in the list of readers. */
function recognises(head: Uint8Array): boolean {
  const [even, odd] = zeroShare(head);
  if (Math.max(even, odd) > 0.3 && Math.min(even, odd) < 0.05) return true; // UTF-16
  if (utf32Order(head) !== null) return true;
  // A recorder that lost its power leaves zeros behind what it wrote.
  let end = head.length;
  while (end > 0 && head[end - 1] === 0) end--;
  let odder = 0;
  for (let i = 0; i < end; i++) {
    const byte = head[i]!;
    if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 13 && byte !== 12) odder++;
  }
  return end > 0 && odder <= end * 0.01;
}

async function read(written: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  const source = inTwoBytes(written, await written.read(0, Math.min(headBytes, written.size)));
  const plan = await plannedOver(source, choices);
  if (!plan) throw await withoutRows(source);
  refuseUnclear(source.name, plan);
  const remarks = new RemarkBook();
  remarkOnPlan(plan, remarks);
  const start = { offset: plan.bodyOffset, line: plan.bodyLine };
  if (isLong(plan.table, choices)) {
    const body = new LongBody(plan, remarks);
    await eachRow(source, plan, start, body, report, remarks);
    return assemble(recordingOf(source.name, plan, longColumns(body, plan)), choices, remarks);
  }
  const table = new GrowingTable(source, plan, choices, remarks);
  const { blocks, body: first } = table;
  const growth = new Growth(table, choices, plan.table.layout === "rows" ? report : { ...report, parts: undefined });
  table.reserve(growth.room);
  const clean = { source, plan, body: first, blocks, remarks, grown: () => growth.grown() };
  const from = plan.clean && plan.delimiter.length < 2 ? await cleanRows(clean, report) : start;
  const sink = { row: blocks.row.bind(blocks), grown: () => growth.handOver() };
  await eachRow(source, plan, from, sink, report, remarks);
  blocks.finish();
  const parted = await growth.finish(remarks);
  if (parted) return parted;
  if (first.rows < 2) throw tooFewRows(source.name, first.rows);
  return assemble(
    recordingOf(
      source.name,
      plan,
      blocks.bodies.flatMap((body, i) => tableColumns(body, i, (column) => column.finish())),
    ),
    choices,
    remarks,
  );
}

/** The plan of the head, with the dates of the whole file where those of the head can be read both ways. */
async function plannedOver(source: ByteSource, choices: ReadChoices): Promise<TextPlan | null> {
  const plan = await sniffSource(source, choices);
  if (!plan?.table.time.isDateOpen) return plan;
  const dateOrder = await dateOrderOver(source);
  return dateOrder === null ? plan : await sniffSource(source, { ...choices, dateOrder });
}

/** Bytes. */
const readAhead = 4 << 20;

/** The first table of a text while it is read. */
class GrowingTable implements Growing {
  readonly blocks: Blocks;
  readonly width: number;
  readonly rowsInAll: number;
  readonly #name: string;
  readonly #plan: TextPlan;
  readonly body: TableBody;

  constructor({ name, size }: ByteSource, plan: TextPlan, choices: ReadChoices, remarks: RemarkBook) {
    this.#name = name;
    this.#plan = plan;
    this.rowsInAll = size / plan.bytesPerRow;
    this.body = new TableBody(plan, plan.table, 0, remarks);
    this.blocks = new Blocks(this.body, choices, remarks);
    this.width = this.#columns.reduce((sum, { values }) => sum + values.BYTES_PER_ELEMENT, 0);
  }

  get rows(): number {
    return this.body.rows;
  }

  /** Makes room for `rows` and what is read before they can be handed over. */
  reserve(rows: number): void {
    const room = Math.ceil(Math.min(rows + readAhead / this.#plan.bytesPerRow, this.rowsInAll, 5e7) * 1.02) + 16;
    for (const column of this.#columns) column.reserve(room);
  }

  /** @throws NotInParts where another table follows. */
  recording(count: number): Recording {
    if (this.blocks.bodies.length > 1) throw new NotInParts("more than one table");
    const columns = tableColumns(this.body, 0, (column) => column.soFar().subarray(0, count));
    return recordingOf(this.#name, this.#plan, columns);
  }

  drop(count: number): void {
    for (const column of this.#columns) column.drop(count);
  }

  get #columns(): Column[] {
    return this.body.columns.filter((column) => column !== null);
  }
}

/** A header alone is another trouble than no header. */
async function withoutRows(source: ByteSource): Promise<ProblemError> {
  const line = headerLine(await source.read(0, Math.min(source.size, 64 * 1024)));
  return line === null ? noNumbers(source.name) : headerOnly(source.name, line);
}

function recordingOf(name: string, plan: TextPlan, columns: readonly Recorded[]): Recording {
  return {
    name,
    format: formatOf(plan.delimiter),
    isRowLog: plan.table.layout === "rows",
    rowsAreSimultaneous: plan.table.rowsAreSimultaneous,
    hasZone: hasZone(plan.table),
    columns,
  };
}

/** @throws ProblemError where only the user can know. */
function refuseUnclear(name: string, plan: TextPlan): void {
  if (plan.isAmbiguous) {
    throw new ProblemError({
      code: "unclear",
      what: "Comma seems to be both the separator and the decimal mark, so the numbers cannot be told apart.",
      remedy: "Say which it is under how the file is read, or export it again with semicolons or decimal points.",
      where: `${name}, line ${plan.bodyLine}`,
    });
  }
  const { form, nearly } = plan.table.time;
  if (form.kind === "none") throw noTime(name, plan.bodyLine, nearly);
}

const delimiterNames: Readonly<Record<string, string>> = {
  ",": "comma-separated text",
  ";": "semicolon-separated text",
  "\t": "tab-separated text",
  "|": "bar-separated text",
  ":": "colon-separated text",
  " ": "blank-separated text",
  "": "text with one column",
};

export function formatOf(delimiter: Delimiter): string {
  return delimiterNames[delimiter] ?? `text separated by ${delimiter}`;
}

function remarkOnPlan(plan: TextPlan, remarks: RemarkBook): void {
  if (plan.table.preamble.length > 0)
    remarks.tally("lines above the header were not read as numbers", "line 1", plan.table.preamble.length);
  if (plan.table.headerRows.length === 0) remarks.say("no header; columns are named by their number");
  remarkOnEncoding(plan, remarks);
  remarkOnMarks(plan, remarks);
  remarks.add(plan.table.remarks);
}

function remarkOnEncoding({ encoding }: TextPlan, remarks: RemarkBook): void {
  if (encoding.startsWith("utf-")) return;
  const why = encoding === "windows-1252" ? "" : ", in which its names make sense";
  remarks.say(`not valid UTF-8; read as ${codePages[encoding as CodePage]}${why}`);
}

function remarkOnMarks({ decimalMark, table: { columns } }: TextPlan, remarks: RemarkBook): void {
  const fractions = columns.filter(({ decimals, use }) => decimals > 0 && (use === "value" || use === "time"));
  const withComma = fractions.filter((column) => column.decimalMark === ",");
  const isMixed = withComma.length > 0 && withComma.length < fractions.length;
  if (isMixed)
    remarks.say(`decimal comma in some columns, point in others; comma: ${listed(withComma.map(({ name }) => name))}`);
  else if (withComma.length > 0 || decimalMark === ",") remarks.say("decimal comma");
}

/** @param numbers  takes what a column holds. */
function tableColumns(body: TableBody, block: number, numbers: (column: Column) => Samples): Recorded[] {
  const { table } = body;
  const times = table.columns.map(({ use }, i) => (use === "time" ? numbers(body.columns[i]!) : null));
  const stamps = times.map((time) => (time ? stampsOf(withoutPadding(time, table), table) : null));
  const { form, column: common } = table.time;
  const even = { rate: form.kind === "rate" ? form.rate : 1 };
  return table.columns.flatMap(({ use, name, header, fileUnit, factor, stampedBy = common }, i) => {
    if (!isKept(use)) return [];
    const time = stampedBy === null ? even : stamps[stampedBy]!;
    const all = multiplied(numbers(body.columns[i]!), factor);
    const values = "rate" in time ? all : all.subarray(0, time.seconds.length);
    const words = Object.keys(body.words[i]!).length > 0 ? { words: body.words[i]! } : {};
    const id = `${block === 0 ? "" : `b${block + 1}`}c${i + 1}`;
    const { isFull } = body.columns[i]!;
    return [{ id, name, header, fileUnit, values, isFull, time, ...words, isSwitch: use === "switch" }];
  });
}

/** In double precision, so that 90 counts of 0.005 V are 0.45 V. */
const multiplied = (values: Samples, factor: Factor | undefined): Samples =>
  factor ? Float64Array.from(values, (value) => value * factor.times + factor.plus) : values;

/** A channel's own time column ends where its channel ends; the rest of the rows belongs to longer ones. */
function withoutPadding(time: Samples, { layout }: TablePlan): Float64Array {
  let end = time.length;
  if (layout === "time-per-channel") while (end > 0 && Number.isNaN(time[end - 1]!)) end--;
  return time.subarray(0, end) as Float64Array;
}

function longColumns(body: LongBody, { table }: TextPlan): Recorded[] {
  return body.named().map(({ name, header, fileUnit, times, values }, i) => ({
    id: `c${i + 1}`,
    name,
    header,
    fileUnit,
    values: values.finish(),
    time: stampsOf(times.finish() as Float64Array, table),
  }));
}

function stampsOf(written: Float64Array, { time: { form, resolution } }: TablePlan): WrittenStamps {
  if (form.kind === "clock")
    return {
      seconds: written,
      resolution,
      isAbsolute: false,
      wrap: form.parts === 3 ? 86400 : 3600,
      isWallClock: form.parts === 3,
    };
  if (form.kind === "fields") {
    const { fields, isAbsolute, hasZone: isZoned } = form;
    const isWallClock = !isZoned && fields[0]?.name !== "minute";
    return { seconds: written, resolution, isAbsolute, wrap: wrapOf(fields), isWallClock };
  }
  if (form.kind !== "number") {
    const isWallClock = form.kind === "instant" && !form.hasZone;
    return { seconds: written, resolution, isAbsolute: form.kind === "instant", wrap: 0, isWallClock };
  }
  const seconds = form.unit === 1 ? written : inSeconds(written, form.unit, form.zero);
  return { seconds, resolution, isAbsolute: form.isEpoch, wrap: 0 };
}

/** Divided where the unit is a part of a second, so that 3 ms becomes 0.003 s exactly. */
function inSeconds(written: Float64Array, unit: number, zero: number): Float64Array {
  const parts = Math.round(1 / unit);
  return unit < 1 && Math.abs(parts * unit - 1) < 1e-12
    ? written.map((value) => (value - zero) / parts)
    : written.map((value) => (value - zero) * unit);
}
