// Pages packed in the ways that Parquet knows (parquet-format, Compression.md), written by DuckDB.

import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { afterAll, beforeAll, expect, test } from "vitest";
import { channel, open, problemOf, values } from "./open.ts";

const rows = 400;
const rowsOf = `SELECT i / 10.0::DOUBLE AS "Time (s)", round(0.45 + 0.35 * sin(i), 3)::DOUBLE AS "O2 B1S1 (V)" FROM range(${rows}) t(i)`;
let folder: string;
const files = new Map<string, Uint8Array>();

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "codecs-"));
  const connection = await (await DuckDBInstance.create()).connect();
  for (const codec of ["uncompressed", "snappy", "gzip", "zstd", "brotli", "lz4_raw"]) {
    const file = join(folder, `${codec}.parquet`);
    await connection.run(`COPY (${rowsOf}) TO '${file}' (FORMAT parquet, CODEC '${codec}')`);
    files.set(codec, new Uint8Array(await readFile(file)));
  }
  connection.closeSync();
});
afterAll(() => rm(folder, { recursive: true }));

test("every codec gives the same samples", async () => {
  for (const [codec, bytes] of files) {
    const front = values(channel(await open(bytes, {}, `${codec}.parquet`), "front-o2"));
    expect(front).toEqual(Array.from({ length: rows }, (_, i) => expect.closeTo(0.45 + 0.35 * Math.sin(i), 2)));
  }
});

test("damaged bytes of the rarer codecs end in a problem, never in a loop", async () => {
  for (const codec of ["zstd", "brotli", "lz4_raw"]) {
    const bytes = files.get(codec)!.slice();
    for (let at = 20; at < 120; at++) bytes[at] = (bytes[at]! * 7 + 13) & 255;
    expect((await problemOf(bytes, {}, `${codec}.parquet`)).code).toBe("damaged");
  }
});
