// Writes a large recording for benchmarks: npm run make:large -- --rows N --out FILE.csv|FILE.wav [--rate HZ]

import { closeSync, openSync, writeSync } from "node:fs";
import { parseArgs } from "node:util";
import { demoCars } from "./demo-cars.ts";
import { seededRandom } from "./random.ts";
import { type Recording, recordScope } from "./recorder.ts";
import { runCar } from "./run.ts";

/** A tile of the drive with three different noises: the file repeats it, under rising times. */
function tiles(rate: number): Recording[] {
  const history = runCar(demoCars.worn);
  return [1, 2, 3].map((seed) =>
    recordScope(
      history,
      {
        kind: "scope",
        rate,
        from: 36,
        // 100,000 rows are enough for a tile, and more than any reader keeps in its caches.
        to: Math.min(206, 36 + 100_000 / rate),
        noise: 0.004,
        resolution: 0.001,
        channels: ["frontVoltage", "rearVoltage", "throttle", "engineSpeed"],
      },
      seededRandom(seed),
    ),
  );
}

const decimals = [3, 3, 1, 0];

/** Text of every row behind its time, one after the other, and where each begins. */
function renderRows(recordings: readonly Recording[]): { text: Buffer; begins: Uint32Array } {
  const rows: string[] = [];
  for (const { stamps, columns } of recordings) {
    for (let i = 0; i < stamps.length; i++) {
      rows.push(columns.map(({ samples }, c) => `,${samples[i]!.toFixed(decimals[c])}`).join(""));
    }
  }
  const begins = new Uint32Array(rows.length + 1);
  rows.forEach((row, i) => {
    begins[i + 1] = begins[i]! + row.length + 1;
  });
  return { text: Buffer.from(`${rows.join("\n")}\n`, "latin1"), begins };
}

/** Comma-separated text with times in s, six decimals. */
function writeText(file: number, rows: number, rate: number): void {
  const { text, begins } = renderRows(tiles(rate));
  const block = Buffer.alloc(1 << 22);
  let used = block.write(
    "Time (s),Front O2 sensor (V),Rear O2 sensor (V),Throttle (%),Engine speed (1/min)\n",
    "latin1",
  );
  for (let row = 0; row < rows; row++) {
    if (used > block.length - 256) {
      writeSync(file, block, 0, used);
      used = 0;
    }
    used = writeTime(block, used, Math.round((row / rate) * 1e6));
    const place = row % (begins.length - 1);
    for (let k = begins[place]!; k < begins[place + 1]!; k++) block[used++] = text[k]!;
  }
  writeSync(file, block, 0, used);
}

/** Digits of a whole number of microseconds as seconds; returns the next place. */
function writeTime(block: Buffer, start: number, microseconds: number): number {
  let digits = 7;
  for (let limit = 1e7; microseconds >= limit; limit *= 10) digits++;
  let rest = microseconds;
  let place = start + digits;
  for (let k = 0; k < digits; k++) {
    block[place--] = 48 + (rest % 10);
    rest = Math.floor(rest / 10);
    if (k === 5) block[place--] = 46;
  }
  return start + digits + 1;
}

/** RIFF WAVE, 32-bit floats (format tag 3), four channels: V, V, %, 1/min. Layout: IBM and Microsoft, RIFF MCI spec 1991. */
function writeWave(file: number, rows: number, rate: number): void {
  const channels = 4;
  const frame = 4 * channels;
  if (rows * frame > 2 ** 32 - 100) throw new RangeError(`a WAV file holds less than 4 GiB, got ${rows * frame} bytes`);
  const head = Buffer.alloc(58);
  head.write("RIFF", 0, "latin1");
  head.writeUInt32LE(50 + rows * frame, 4);
  head.write("WAVEfmt ", 8, "latin1");
  head.writeUInt32LE(18, 16);
  head.writeUInt16LE(3, 20);
  head.writeUInt16LE(channels, 22);
  head.writeUInt32LE(rate, 24);
  head.writeUInt32LE(rate * frame, 28);
  head.writeUInt16LE(frame, 32);
  head.writeUInt16LE(32, 34);
  head.write("fact", 38, "latin1");
  head.writeUInt32LE(4, 42);
  head.writeUInt32LE(rows, 46);
  head.write("data", 50, "latin1");
  head.writeUInt32LE(rows * frame, 54);
  writeSync(file, head);
  const blocks = tiles(rate).map(interleave);
  for (let done = 0, t = 0; done < rows * frame; t++) {
    const block = blocks[t % blocks.length]!;
    done += writeSync(file, block, 0, Math.min(block.length, rows * frame - done));
  }
}

function interleave({ stamps, columns }: Recording): Buffer {
  const frames = new Float32Array(stamps.length * columns.length);
  columns.forEach(({ samples }, c) => {
    for (let i = 0; i < samples.length; i++) frames[i * columns.length + c] = samples[i]!;
  });
  return Buffer.from(frames.buffer);
}

const { values } = parseArgs({
  options: { rows: { type: "string" }, out: { type: "string" }, rate: { type: "string", default: "1000" } },
});
const [rows, rate] = [Number(values.rows), Number(values.rate)];
if (!values.out || !(rows >= 2) || !(rate > 0)) {
  console.error("Usage: npm run make:large -- --rows N --out FILE.csv|FILE.wav [--rate HZ]");
  process.exit(2);
}
const file = openSync(values.out, "w");
if (values.out.endsWith(".wav")) writeWave(file, rows, rate);
else writeText(file, rows, rate);
closeSync(file);
