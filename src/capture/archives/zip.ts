// What is in a zip archive. Source: PKWARE APPNOTE 6.3.9, sections 4.3 and 4.4.

import type { ByteSource } from "../model/reader.ts";
import { damagedArchive, type Packed } from "./unpack.ts";

export interface Member {
  readonly name: string;
  /** Bytes unpacked, as the archive claims. */
  readonly size: number;
  readonly packedSize: number;
  readonly method: number;
  readonly isEncrypted: boolean;
  readonly crc: number;
  /** Where its local header stands. */
  readonly at: number;
}

const endSign = 0x06054b50;
const entrySign = 0x02014b50;
const mostMembers = 10_000;

/** Members of the central directory, folders left out. @throws ProblemError "damaged" without a readable directory. */
export async function membersOf(source: ByteSource): Promise<Member[]> {
  const tailFrom = Math.max(0, source.size - 66_000);
  const tail = viewOf(await source.read(tailFrom, source.size));
  let end = tail.byteLength - 22;
  while (end >= 0 && tail.getUint32(end, true) !== endSign) end--;
  if (end < 0) throw damagedArchive(source.name);
  const [size, from] = [tail.getUint32(end + 12, true), tail.getUint32(end + 16, true)];
  if (from + size > source.size || size > 64 * 1024 * 1024) throw damagedArchive(source.name);
  return entries(viewOf(await source.read(from, from + size)));
}

function entries(view: DataView): Member[] {
  const members: Member[] = [];
  for (
    let at = 0;
    at + 46 <= view.byteLength && view.getUint32(at, true) === entrySign && members.length < mostMembers;
  ) {
    const [nameLength, extra, comment] = [28, 30, 32].map((place) => view.getUint16(at + place, true)) as [
      number,
      number,
      number,
    ];
    const isUtf8 = (view.getUint16(at + 8, true) & 0x800) !== 0;
    const nameBytes = new Uint8Array(
      view.buffer,
      view.byteOffset + at + 46,
      Math.min(nameLength, view.byteLength - at - 46),
    );
    members.push({
      name: new TextDecoder(isUtf8 ? "utf-8" : "windows-1252").decode(nameBytes),
      size: view.getUint32(at + 24, true),
      packedSize: view.getUint32(at + 20, true),
      method: view.getUint16(at + 10, true),
      isEncrypted: (view.getUint16(at + 8, true) & 1) !== 0,
      crc: view.getUint32(at + 16, true),
      at: view.getUint32(at + 42, true),
    });
    at += 46 + nameLength + extra + comment;
  }
  return members.filter(({ name }) => !name.endsWith("/") && !/(^|\/)(__MACOSX\/|\.|Thumbs\.db$)/.test(name));
}

/** The packed bytes of a member. @throws ProblemError "damaged" where its local header is not there. */
export async function packedMember(source: ByteSource, member: Member): Promise<Packed> {
  const local = viewOf(await source.read(member.at, member.at + 30));
  if (local.byteLength < 30 || local.getUint32(0, true) !== 0x04034b50) throw damagedArchive(source.name);
  const from = member.at + 30 + local.getUint16(26, true) + local.getUint16(28, true);
  const to = Math.min(from + member.packedSize, source.size);
  return { source, from, to, kind: member.method === 0 ? "stored" : "deflate", crc: member.crc };
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
