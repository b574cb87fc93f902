// Recordings broken on purpose, from fixed seeds: cut, spliced, flipped, repeated, lied about.

import { gzipSync, strToU8, zipSync } from "fflate";

/** mulberry32: a small public-domain generator, so that every run breaks the same bytes. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Random = () => number;

const rows = (make: (i: number) => string) => Array.from({ length: 60 }, (_, i) => make(i)).join("\n");
const csv = `Time (s),Front O2 (V),Rear O2 (V),RPM\n${rows((i) => `${i / 10},${(0.45 + 0.4 * Math.sin(i)).toFixed(3)},0.6,${800 + i}`)}\n`;
const german = `"Zeit";"Sonde 1 [mV]";"Status"\r\n${rows((i) => `12:00:${String(i).padStart(2, "0")},5;"${450 + i}";CL`)}\r\n`;
const long = `time\tchannel\tvalue\n${rows((i) => `${i / 20}\t${i % 2 ? "RPM" : "O2 B1S1"}\t${i}`)}\n`;

/** RIFF, two channels of 16 bits at 1,000 per second. */
function wav(): Uint8Array {
  const samples = Int16Array.from({ length: 160 }, (_, i) => (i % 2 === 0 ? i / 2 : -(i - 1) / 2));
  const bytes = new Uint8Array(44 + samples.byteLength);
  const view = new DataView(bytes.buffer);
  const words = ["RIFF", 36 + samples.byteLength, "WAVE", "fmt ", 16, 0x0002_0001, 1000, 4000, 0x0010_0004, "data"];
  for (const [i, word] of [...words, samples.byteLength].entries()) {
    if (typeof word === "number") view.setUint32(4 * i, word, true);
    else bytes.set(strToU8(word), 4 * i);
  }
  bytes.set(new Uint8Array(samples.buffer), 44);
  return bytes;
}

function npy(): Uint8Array {
  const header = "{'descr': '<f8', 'fortran_order': False, 'shape': (40, 3), }".padEnd(117, " ").concat("\n");
  const body = new Uint8Array(Float64Array.from({ length: 120 }, (_, i) => i / 7).buffer);
  return Uint8Array.from([0x93, ...strToU8("NUMPY"), 1, 0, header.length, 0, ...strToU8(header), ...body]);
}

/** Sound files that the mutations start from. */
export function seeds(parquet: Uint8Array): Uint8Array[] {
  const utf16 = new Uint8Array([0xff, 0xfe, ...[...csv].flatMap((character) => [character.charCodeAt(0), 0])]);
  const zip = zipSync({ "a.csv": strToU8(csv), "b.txt": strToU8(german) });
  const npz = zipSync({ "t.npy": npy(), "front.npy": npy() });
  return [strToU8(csv), strToU8(german), strToU8(long), utf16, wav(), npy(), gzipSync(strToU8(csv)), zip, npz, parquet];
}

const largest = [0xff, 0xff, 0xff, 0x7f];

const mutations: readonly ((bytes: Uint8Array, random: Random, others: readonly Uint8Array[]) => Uint8Array)[] = [
  (bytes, random) => bytes.slice(0, Math.floor(random() * bytes.length)),
  (bytes, random) => bytes.slice(Math.floor(random() * bytes.length)),
  (bytes, random) => flipped(bytes, random, 1),
  (bytes, random) => flipped(bytes, random, 1 + Math.floor(random() * 40)),
  (bytes, random, others) => spliced(bytes, others[Math.floor(random() * others.length)]!, random),
  (bytes, random) => repeated(bytes, random),
  (bytes, random) => stamped(bytes, random, [0, 0, 0, 0]),
  (bytes, random) => stamped(bytes, random, largest),
  (bytes, random) => stamped(bytes, random, [0xff, 0xff, 0xff, 0xff]),
  (bytes, random) => stamped(bytes.slice(0, 64 + Math.floor(random() * 960)), random, [0, 0, 0, 0x80]),
  (bytes, random) => inserted(bytes, random, strToU8('"')),
  (bytes, random) => inserted(bytes, random, strToU8("\n\n#\n;;;,,,\t\t\n1e999,NaN,-\n")),
  (bytes, random) =>
    inserted(
      bytes,
      random,
      new Uint8Array(300).map(() => Math.floor(random() * 256)),
    ),
];

/** The mutated file number `i`. */
export function hostile(i: number, from: readonly Uint8Array[]): Uint8Array {
  const random = randomFrom(1000 + i);
  let bytes = from[i % from.length]!;
  const rounds = 1 + Math.floor(random() * 3);
  for (let r = 0; r < rounds; r++) bytes = mutations[Math.floor(random() * mutations.length)]!(bytes, random, from);
  return bytes;
}

function flipped(bytes: Uint8Array, random: Random, count: number): Uint8Array {
  const out = bytes.slice();
  for (let n = 0; n < count && out.length > 0; n++) {
    const at = Math.floor(random() * out.length);
    out[at] = out[at]! ^ (1 << Math.floor(random() * 8));
  }
  return out;
}

function joined(...parts: Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

function spliced(a: Uint8Array, b: Uint8Array, random: Random): Uint8Array {
  return joined(a.slice(0, Math.floor(random() * a.length)), b.slice(Math.floor(random() * b.length)));
}

function repeated(bytes: Uint8Array, random: Random): Uint8Array {
  const [from, size] = [Math.floor(random() * bytes.length), 1 + Math.floor(random() * 200)];
  const piece = bytes.slice(from, from + size);
  return joined(
    bytes.slice(0, from),
    ...Array.from({ length: 1 + Math.floor(random() * 300) }, () => piece),
    bytes.slice(from),
  );
}

function stamped(bytes: Uint8Array, random: Random, word: readonly number[]): Uint8Array {
  const out = bytes.slice();
  const near = Math.min(out.length, random() < 0.5 ? 64 : out.length); // headers stand in front
  out.set(
    word.slice(0, Math.max(0, out.length)).slice(0, 4),
    Math.max(0, Math.min(out.length - 4, Math.floor(random() * near))),
  );
  return out;
}

function inserted(bytes: Uint8Array, random: Random, piece: Uint8Array): Uint8Array {
  const at = Math.floor(random() * bytes.length);
  return joined(bytes.slice(0, at), piece, bytes.slice(at));
}
