// Recordings inside gzip and zip. NumPy's .npz is a zip of arrays.

import { ProblemError } from "../../problem.ts";
import { piecesSource } from "../bytes/sources.ts";
import type { Capture } from "../model/capture.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "../model/reader.ts";
import { RemarkBook } from "../model/remarks.ts";
import { npzCapture } from "./npz.ts";
import { mostUnpacked, type Packed, type Unpacking, unpack, unpackedPieces } from "./unpack.ts";
import { type Unpacked, unpackedSource } from "./unpacked-source.ts";
import { type Member, membersOf, packedMember } from "./zip.ts";

/** Reads what was unpacked; given from outside, as it may be any format. */
export type ReadInner = (source: ByteSource, choices: ReadChoices, report: ReadReport) => Promise<Capture>;

export function gzipReader(readInner: ReadInner): Reader {
  return {
    name: "gzip",
    recognises: isGzip,
    read: async (source, choices, report) => {
      const remarks = new RemarkBook();
      const expected = await gzipSize(source);
      const unpacked = { name: innerName(source), expected, isSizeGuessed: true };
      const [inner, heard] = isStreamed(expected, report)
        ? streamed(gzipOf(source), unpacked, { report, remarks })
        : [await gunzipped(source, { report, remarks }), report];
      const capture = await readInner(inner, choices, heard);
      return named(capture, source.name, "gzip", remarks);
    },
  };
}

export function zipReader(readInner: ReadInner): Reader {
  return {
    name: "zip",
    recognises: isZip,
    read: async (source, choices, report) => {
      const remarks = new RemarkBook();
      const members = await membersOf(source);
      if (isNpz(members) && choices.member === undefined)
        return npzCapture(source, members, choices, { report, remarks });
      const member = chosen(members, choices.member, source.name);
      refuseLocked(source.name, member);
      const unpacked = { name: member.name, expected: member.size, isSizeGuessed: false };
      const [inner, heard] = isStreamed(member.size, report)
        ? streamed(await packedMember(source, member), unpacked, { report, remarks })
        : [await opened(source, member, { report, remarks }), report];
      const capture = await readInner(inner, choices, heard);
      return named({ ...capture, format: `${capture.format}, ${member.name}` }, source.name, "zip", remarks);
    },
  };
}

/** Whether so many bytes are better read while they are unpacked than after. */
const isStreamed = (expected: number, { parts }: ReadReport): boolean =>
  parts !== undefined && (expected > mostUnpacked || parts.wants(expected));

/** The bytes while they are unpacked, and a report for who reads them: progress is told by the bytes of the archive. */
function streamed(packed: Packed, unpacked: Unpacked, unpacking: Unpacking): readonly [ByteSource, ReadReport] {
  const begin = () => unpackedPieces(packed, unpacking, Number.POSITIVE_INFINITY);
  return [unpackedSource(unpacked, begin), { ...unpacking.report, progress: () => {} }];
}

/** Recordings pack to about a quarter (common practice), and hardly to less than this. */
const usualGrowth = 4;
const mostGrowth = 40;

/** Bytes unpacked, about: the trailer holds their lowest 32 bits, of the last member if there are several (RFC 1952, section 2.3.1). */
async function gzipSize(source: ByteSource): Promise<number> {
  const tail = await source.read(Math.max(0, source.size - 4), source.size);
  if (tail.length < 4) return 0;
  const lowest = new DataView(tail.buffer, tail.byteOffset, 4).getUint32(0, true);
  const rounds = Math.max(0, Math.round((usualGrowth * source.size - lowest) / 2 ** 32));
  return Math.min(mostGrowth * source.size, Math.max(source.size, lowest + rounds * 2 ** 32));
}

export const isGzip = (head: Uint8Array): boolean => head[0] === 0x1f && head[1] === 0x8b && head[2] === 8;
export const isZip = (head: Uint8Array): boolean =>
  head[0] === 0x50 && head[1] === 0x4b && [3, 5].includes(head[2] ?? 0);
export const isNpz = (members: readonly Member[]): boolean =>
  members.length > 0 && members.every(({ name }) => name.endsWith(".npy"));

/** The unpacked content of a gzip file; with `most` no more than about so many bytes of it. */
export async function gunzipped(source: ByteSource, unpacking: Unpacking, most?: number): Promise<ByteSource> {
  return piecesSource(await unpack(gzipOf(source), unpacking, most), innerName(source));
}

function gzipOf(source: ByteSource): Packed {
  return { source, from: 0, to: source.size, kind: "gzip", crc: null };
}

const innerName = ({ name }: ByteSource): string => name.replace(/\.gz$/i, "");

/** The unpacked content of one member, as `gunzipped`. */
export async function opened(
  source: ByteSource,
  member: Member,
  unpacking: Unpacking,
  most?: number,
): Promise<ByteSource> {
  refuseLocked(source.name, member);
  return piecesSource(await unpack(await packedMember(source, member), unpacking, most), member.name);
}

/** The member the user named; else the only one that may be a recording. @throws ProblemError "unclear", "wrong-choice" */
export function chosen(members: readonly Member[], said: string | undefined, name: string): Member {
  const office = members.some((member) => member.name === "[Content_Types].xml" || member.name === "mimetype");
  if (office) throw officeDocument(name);
  const named =
    members.find((member) => member.name === said) ??
    members.find((member) => said && member.name.endsWith(`/${said}`));
  if (named) return named;
  const likely = likelyMembers(members);
  if (said === undefined && likely.length === 1) return likely[0]!;
  throw new ProblemError({
    code: said !== undefined ? "wrong-choice" : likely.length === 0 ? "not-a-recording" : "unclear",
    what:
      said !== undefined
        ? `${name} holds no ${said}.`
        : likely.length === 0
          ? `${name} holds nothing that looks like a recording.`
          : `${name} holds ${likely.length} files that may be recordings.`,
    remedy: `Choose one (--member on the command line): ${list(likely.length > 0 ? likely : members)}.`,
    where: name,
  });
}

/** Members that are not certainly something else by their name. */
export function likelyMembers<M extends Pick<Member, "name" | "size">>(members: readonly M[]): readonly M[] {
  const other =
    /\.(png|jpe?g|gif|bmp|svg|pdf|html?|xml|json|ini|cfg|exe|dll|md|docx?|rtf|log\.txt|css|js)$|(^|\/)(readme|license|licence)[^/]*$/i;
  const likely = members.filter(({ name, size }) => size > 0 && !other.test(name));
  const tables = likely.filter(({ name }) => /\.(csv|tsv|txt|dat|asc|wav|npy|npz|parquet|gz|log|prn)$/i.test(name));
  return tables.length > 0 ? tables : likely;
}

function list(members: readonly Member[]): string {
  const names = members.slice(0, 8).map(({ name }) => name.slice(0, 80));
  return names.length < members.length
    ? `${names.join(", ")} and ${members.length - names.length} more`
    : names.join(", ");
}

function named(capture: Capture, name: string, archive: string, remarks: RemarkBook): Capture {
  return {
    ...capture,
    name,
    format: `${capture.format} (${archive})`,
    remarks: [...remarks.list(), ...capture.remarks],
  };
}

function officeDocument(name: string): ProblemError {
  return new ProblemError({
    code: "not-a-recording",
    what: `${name} is a spreadsheet or office document, not plain text.`,
    remedy: "Open it in a spreadsheet program and save the sheet as CSV.",
    where: name,
  });
}

function refuseLocked(name: string, member: Member): void {
  if (!member.isEncrypted && [0, 8].includes(member.method)) return;
  throw new ProblemError({
    code: "unreadable",
    what: `${member.name} in ${name} is ${member.isEncrypted ? "locked with a password" : "packed in a way that is not read here"}.`,
    remedy: "Unpack it and open the recording itself.",
    where: name,
  });
}
