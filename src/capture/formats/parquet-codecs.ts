// What a Parquet file's pages are packed with: the rarer ways are loaded only when a file needs them.

import { gunzipSync } from "fflate";
import type { Compressors, RowGroup } from "hyparquet";
import { ProblemError } from "../../problem.ts";
import { unsnappy } from "./snappy.ts";

const usual: Compressors = {
  GZIP: (bytes: Uint8Array) => gunzipSync(bytes),
  SNAPPY: (bytes: Uint8Array, size: number) => unsnappy(bytes, size),
};
/** Read by the package hyparquet-compressors. */
const rare = ["ZSTD", "BROTLI", "LZ4", "LZ4_RAW"];

/**
 * @returns how to unpack the pages of all these row groups.
 * @throws ProblemError "damaged" naming the codec that is not read.
 */
export async function codecsFor(name: string, groups: readonly RowGroup[]): Promise<Compressors> {
  const used = new Set(groups.flatMap(({ columns }) => columns.flatMap(({ meta_data }) => meta_data?.codec ?? [])));
  const unknown = [...used].find((codec) => codec !== "UNCOMPRESSED" && !(codec in usual) && !rare.includes(codec));
  if (unknown !== undefined) throw notRead(name, unknown);
  if (!rare.some((codec) => used.has(codec as never))) return usual;
  const { decompressBrotli, decompressLz4, decompressLz4Raw, decompressZstd } = await import("hyparquet-compressors");
  return {
    ...usual,
    ZSTD: (bytes) => decompressZstd(bytes),
    BROTLI: (bytes, size) => decompressBrotli(bytes, size),
    LZ4: (bytes, size) => decompressLz4(bytes, size),
    LZ4_RAW: (bytes, size) => decompressLz4Raw(bytes, size),
  };
}

const notRead = (name: string, codec: string): ProblemError =>
  new ProblemError({
    code: "damaged",
    what: `${name} is packed with ${codec}, which is not read here.`,
    remedy: "Write it again with no, snappy, gzip, zstd, brotli or LZ4 compression, or export the recording as CSV.",
    where: name,
  });
