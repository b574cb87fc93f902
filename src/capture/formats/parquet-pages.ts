// Looks over the pages of a Parquet column before they are decoded: lying counts would keep a decoder busy for ever.
// Source: parquet-format, parquet.thrift (PageHeader) and Encodings.md (run-length / bit-packing hybrid).

import { deserializeTCompactProtocol } from "hyparquet/src/thrift.js";

interface Page {
  readonly field_1?: number; // 0 data, 2 dictionary, 3 data v2
  readonly field_2?: number; // bytes unpacked
  readonly field_3?: number; // bytes packed
  readonly field_5?: { readonly field_1?: number };
  readonly field_7?: { readonly field_1?: number };
  readonly field_8?: DataPage;
}

interface DataPage {
  readonly field_1?: number; // values
  readonly field_5?: number; // bytes of definition levels
  readonly field_6?: number; // bytes of repetition levels
}

/** @throws RangeError where the pages of a column chunk claim more than it can hold. */
export function checkPages(chunk: ArrayBuffer, values: number): void {
  const reader = { view: new DataView(chunk), offset: 0 };
  let seen = 0;
  while (reader.offset < chunk.byteLength - 1 && seen < values) {
    const page = deserializeTCompactProtocol(reader) as Page;
    const [unpacked = -1, packed = -1] = [page.field_2, page.field_3];
    const claimed = page.field_5?.field_1 ?? page.field_8?.field_1 ?? page.field_7?.field_1 ?? -1;
    const fits = packed > 0 && unpacked >= 0 && unpacked < 2 ** 30 && reader.offset + packed <= chunk.byteLength;
    if (!fits || claimed < 0 || claimed > Math.max(values, 2 ** 24))
      throw new RangeError("a page claims more than the file holds");
    if (page.field_8) checkLevels(chunk, reader.offset, page.field_8, packed, claimed);
    if (!page.field_7) seen += claimed;
    reader.offset += packed;
  }
  if (seen > values * 2) throw new RangeError("pages hold more values than their column");
}

/** Without its lengths a decoder would read at no place at all, for ever. */
function checkLevels(
  chunk: ArrayBuffer,
  at: number,
  { field_5: levels = -1, field_6: repeats = -1 }: DataPage,
  packed: number,
  values: number,
): void {
  if (levels < 0 || repeats < 0 || levels + repeats > packed)
    throw new RangeError("a page does not say where its levels end");
  checkRuns(new Uint8Array(chunk, at + repeats, levels), values);
}

/** Definition levels of a flat column, one bit wide, must come to the page's number of values. */
function checkRuns(bytes: Uint8Array, values: number): void {
  let [at, seen] = [0, 0];
  while (at < bytes.length && seen < values) {
    let [header, shift] = [0, 1];
    do {
      header += ((bytes[at] ?? 0) & 127) * shift;
      shift *= 128;
    } while ((bytes[at++] ?? 0) > 127 && shift < 2 ** 36);
    const isPacked = header % 2 === 1;
    const count = isPacked ? ((header - 1) / 2) * 8 : header / 2;
    if (count === 0 || count > values + 7) throw new RangeError("levels of a page do not fit its values");
    seen += count;
    at += isPacked ? count / 8 : 1;
  }
}
