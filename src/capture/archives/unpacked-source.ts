// The bytes of an archive while it is unpacked: from front to back, without ever holding them all.

import { joined } from "../bytes/sources.ts";
import { type ByteSource, NotInParts } from "../model/reader.ts";

/** Bytes behind the foremost place that are kept: readers look at the head first, and go back by a few pieces. */
const kept = 16 << 20;
/** How often the archive may be unpacked anew for what lies further back. */
const mostAnew = 3;
/** More than was expected may be as much more. */
const ahead = 64 << 20;

/** What an archive unpacks to. */
export interface Unpacked {
  readonly name: string;
  /** Bytes, about. */
  readonly expected: number;
  readonly isSizeGuessed: boolean;
}

/**
 * @param begin  unpacks from the beginning.
 * @throws NotInParts on read where the reader goes to and fro.
 */
export function unpackedSource(
  { name, expected, isSizeGuessed }: Unpacked,
  begin: () => AsyncGenerator<Uint8Array>,
): ByteSource {
  let pieces: Uint8Array[] = [];
  let rest = begin();
  let [start, end, total] = [0, 0, Number.NaN];
  let anew = 0;

  async function pull(): Promise<void> {
    const { value, done } = await rest.next();
    if (done) {
      total = end;
      return;
    }
    pieces.push(value);
    end += value.length;
    while (end - start - pieces[0]!.length > kept) start += pieces.shift()!.length;
  }

  return {
    name,
    isSizeGuessed,
    get size() {
      return Number.isNaN(total) ? (end < expected ? expected : end + ahead) : total;
    },
    async read(from, to) {
      if (from < start) {
        if (++anew > mostAnew) throw new NotInParts("an archive that is read to and fro");
        await rest.return(undefined);
        [pieces, rest, start, end] = [[], begin(), 0, 0];
      }
      // What comes before `from` is let go.
      while (end < to && end !== total) await pull();
      return joined(pieces, from - start, Math.min(to, end) - start);
    },
  };
}
