// Recordings inside gzip and zip. NumPy's .npz is a zip of arrays.

import { ProblemError } from "../problem.ts";
import type { Capture } from "./capture.ts";
import { npzCapture } from "./npz.ts";
import type { ByteSource, ReadChoices, Reader, ReadReport } from "./reader.ts";
import { RemarkBook } from "./remarks.ts";
import { piecesSource } from "./sources.ts";
import { type Unpacking, unpack } from "./unpack.ts";
import { type Member, membersOf, packedMember } from "./zip.ts";

/** Reads what was unpacked; given from outside, as it may be any format. */
export type ReadInner = (source: ByteSource, choices: ReadChoices, report: ReadReport) => Promise<Capture>;

export function gzipReader(readInner: ReadInner): Reader {
  return {
    name: "gzip",
    recognises: isGzip,
    read: async (source, choices, report) => {
      const remarks = new RemarkBook();
      const capture = await readInner(await gunzipped(source, { report, remarks }), choices, report);
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
      const inner = await opened(source, member, { report, remarks });
      const capture = await readInner(inner, choices, report);
      return named({ ...capture, format: `${capture.format}, ${member.name}` }, source.name, "zip", remarks);
    },
  };
}

export const isGzip = (head: Uint8Array): boolean => head[0] === 0x1f && head[1] === 0x8b && head[2] === 8;
export const isZip = (head: Uint8Array): boolean =>
  head[0] === 0x50 && head[1] === 0x4b && [3, 5].includes(head[2] ?? 0);
export const isNpz = (members: readonly Member[]): boolean =>
  members.length > 0 && members.every(({ name }) => name.endsWith(".npy"));

/** The unpacked content of a gzip file; with `most` no more than about so many bytes of it. */
export async function gunzipped(source: ByteSource, unpacking: Unpacking, most?: number): Promise<ByteSource> {
  const packed = { source, from: 0, to: source.size, kind: "gzip", crc: null } as const;
  return piecesSource(await unpack(packed, unpacking, most), source.name.replace(/\.gz$/i, ""));
}

/** The unpacked content of one member, as `gunzipped`. */
export async function opened(
  source: ByteSource,
  member: Member,
  unpacking: Unpacking,
  most?: number,
): Promise<ByteSource> {
  if (member.isEncrypted || ![0, 8].includes(member.method)) throw locked(source.name, member);
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

function locked(name: string, member: Member): ProblemError {
  return new ProblemError({
    code: "unreadable",
    what: `${member.name} in ${name} is ${member.isEncrypted ? "locked with a password" : "packed in a way that is not read here"}.`,
    remedy: "Unpack it and open the recording itself.",
    where: name,
  });
}
