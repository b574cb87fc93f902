// Every format that opens, in the order it is tried.

import { gzipReader, isGzip, isZip, type ReadInner, zipReader } from "./archives/archive-readers.ts";
import { npyReader } from "./formats/npy-reader.ts";
import { parquetReader } from "./formats/parquet-reader.ts";
import { rawReader } from "./formats/raw-reader.ts";
import { wavReader } from "./formats/wav-reader.ts";
import type { Capture } from "./model/capture.ts";
import { statesType } from "./model/layout.ts";
import { type ByteSource, NotInParts, type ReadChoices, type Reader, type ReadReport } from "./model/reader.ts";
import { refuseOtherKinds, unknownBytes } from "./not-recording.ts";
import { emptyFile } from "./text/rows.ts";
import { textReader } from "./text/text-reader.ts";

const mostNested = 2; // an archive may hold a gzip; deeper nests are bombs or mistakes

/** Text comes last: nearly anything may be text. Raw numbers have no mark; they are read when their layout is stated. */
function readersAt(depth: number): readonly Reader[] {
  const readInner: ReadInner = (source, choices, report) => readWith(readersAt(depth + 1), source, choices, report);
  const archives = depth < mostNested ? [gzipReader(readInner), zipReader(readInner)] : [];
  return [wavReader, npyReader, parquetReader, ...archives, rawReader, textReader];
}

export const readers: readonly Reader[] = readersAt(0);

const headBytes = 4096;

/**
 * Reads a recording of whatever format its first bytes show.
 *
 * @throws ProblemError when it cannot be read: what is wrong, where, and what would help; NotInParts, see ReadReport.parts.
 */
export function readCapture(source: ByteSource, choices: ReadChoices, report: ReadReport): Promise<Capture> {
  return readWith(readers, source, choices, report);
}

async function readWith(
  among: readonly Reader[],
  source: ByteSource,
  choices: ReadChoices,
  report: ReadReport,
): Promise<Capture> {
  if (source.size === 0) throw emptyFile(source.name);
  const head = await source.read(0, Math.min(headBytes, source.size));
  if (head.length === 0) throw emptyFile(source.name);
  const isStated = choices.layout !== undefined && statesType(choices.layout) && !isGzip(head) && !isZip(head);
  if (!isStated) refuseOtherKinds(head, source.name);
  const reader = isStated ? rawReader : among.find(({ recognises }) => recognises(head));
  if (!reader) throw unknownBytes(source.name);
  if (source.isSizeGuessed && reader !== textReader) throw new NotInParts("numbers whose count must be known");
  return reader.read(source, choices, report);
}
