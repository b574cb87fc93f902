// Job bundles that lie, each with what must become of it.

import { strToU8, unzipSync } from "fflate";
import { type Entry, joined, zipOf } from "./zip.ts";

export interface HostileBundle {
  readonly name: string;
  readonly zip: Uint8Array;
  /** "told": it opens, and what is wrong with a part of it is said; "either": opened or refused. */
  readonly must: "opened" | "told" | "refused" | "either";
}

// biome-ignore lint/suspicious/noExplicitAny: a record is spoiled in every place
type Spoiled = any;

/** @param good  a bundle as the page saves it: one recording, one exhibit. */
export function hostileBundles(good: Uint8Array): readonly HostileBundle[] {
  const entries = unzipSync(good);
  const text = new TextDecoder().decode(entries["job.json"]);
  const others: readonly Entry[] = Object.entries(entries)
    .filter(([name]) => name !== "job.json")
    .map(([name, bytes]) => ({ name, bytes }));
  let count = 0;
  /** The record under an id and a name of its own, with something in it changed. */
  const record = (spoil: (job: Spoiled) => void = () => {}): Entry => {
    const job = JSON.parse(text);
    job.id = `hostile-${++count}`;
    job.name = `Hostile ${count}`;
    spoil(job);
    return { name: "job.json", bytes: strToU8(JSON.stringify(job)) };
  };
  const raw = (json: string): Entry => ({ name: "job.json", bytes: strToU8(json) });
  const bench = (spoil: (bench: Spoiled) => void) => record((job) => spoil(job.captures[0].bench));
  const made: HostileBundle[] = [];
  const put = (must: HostileBundle["must"], name: string, zip: Uint8Array) => made.push({ name, zip, must });
  const whole = (must: HostileBundle["must"], name: string, entry: Entry, more: readonly Entry[] = []) =>
    put(must, name, zipOf([entry, ...others, ...more]));
  const zeros = new Uint8Array(64 << 20);
  const recording = others.find(({ name }) => String(name).startsWith("recordings/"))!;
  const exhibits = others.filter(({ name }) => String(name).startsWith("exhibits/"));
  const job = JSON.parse(text);

  const plain = zipOf([record(), ...others]);
  put("refused", "cut after the first header", plain.slice(0, 30));
  put("refused", "cut in the middle", plain.slice(0, plain.length >> 1));
  put("refused", "cut before the list of entries ends", plain.slice(0, -60));
  put("refused", "its first bytes twice", joined([plain.slice(0, 500), plain.slice(0, plain.length - 22)]));
  put(
    "opened",
    "text before the archive, as a program that unpacks itself",
    zipOf([record(), ...others], { before: strToU8("PK\x03\x04") }),
  );
  put(
    "opened",
    "a comment that looks like an end",
    zipOf([record(), ...others], { comment: strToU8("PK\x05\x06".repeat(5)) }),
  );
  put("either", "more entries told than there are", zipOf([record(), ...others], { count: 60_000 }));
  put("either", "the list is told to be beyond the end", zipOf([record(), ...others], { listAt: 0x7fffffff }));
  whole("either", "the record twice, the second no record", record(), [raw("{}")]);
  whole("refused", "the record twice, the first no record", raw("[]"), []);
  whole("either", "a recording twice", record(), [{ ...recording, bytes: strToU8("no recording") }]);
  whole("opened", "absolute paths", record(), [
    { name: "/etc/passwd", bytes: strToU8("x") },
    { name: "C:\\x", bytes: strToU8("x") },
  ]);
  whole("opened", "paths that climb", record(), [
    { name: "../../../x", bytes: strToU8("x") },
    { name: "recordings/../../job.json", bytes: strToU8("{}") },
  ]);
  whole("opened", "names that are no UTF-8", record(), [
    { name: Uint8Array.of(0xff, 0xfe, 0xc3, 0x28), bytes: strToU8("x") },
  ]);
  put("refused", "a record of a size told too small", zipOf([{ ...record(), says: { size: 10 } }, ...others]));
  put("refused", "a record of a size told too large", zipOf([{ ...record(), says: { size: 0x7fffffff } }, ...others]));
  put(
    "refused",
    "a record packed longer than the file",
    zipOf([{ ...record(), says: { packed: 0x7ffffff0 } }, ...others]),
  );
  put("refused", "an unknown way of packing", zipOf([{ ...record(), method: 99 }, ...others]));
  put("refused", "a record of a false checksum", zipOf([{ ...record(), says: { crc: 1 } }, ...others]));
  whole("opened", "one thousand junk entries of 64 MB each", record(), [
    { name: "junk", bytes: zeros },
    ...Array.from(
      { length: 999 },
      (_, i): Entry => ({ name: `junk-${i}`, bytes: zeros.subarray(0, 8), shared: true, says: { size: zeros.length } }),
    ),
  ]);
  put(
    "refused",
    "an exhibit that swells to 512 MB",
    zipOf([record(), ...exhibits.map((one) => ({ ...one, bytes: new Uint8Array(512 << 20) })), recording]),
  );
  put(
    "refused",
    "a record that swells to 512 MB",
    zipOf([{ name: "job.json", bytes: new Uint8Array(512 << 20).fill(32) }, ...others]),
  );
  whole("opened", "a bundle inside", record(), [{ name: "inner.zip", bytes: good }]);
  put("refused", "nothing but a bundle inside", zipOf([{ name: "job.zip", bytes: good }]));
  whole(
    "refused",
    "of version 99",
    record((one) => (one.version = 99)),
  );
  whole(
    "refused",
    "of version 0",
    record((one) => (one.version = 0)),
  );
  whole(
    "refused",
    "of version 1.5",
    record((one) => (one.version = 1.5)),
  );
  whole(
    "refused",
    "a version that is text",
    record((one) => (one.version = "3")),
  );
  whole(
    "opened",
    "__proto__ in the record",
    raw(
      JSON.stringify({ ...job, id: "hostile-proto", name: "Hostile proto" }).replace(
        /^\{/,
        '{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":1}},',
      ),
    ),
  );
  whole(
    "opened",
    "__proto__ among the channels' settings",
    raw(
      JSON.stringify({ ...job, id: "hostile-proto-2", name: "Hostile proto 2" })
        .replace(
          '"channels":{',
          '"channels":{"constructor":{"gain":1,"offset":0},"toString":{"gain":1,"offset":0},"__proto__":{"gain":1,"offset":0},',
        )
        .replace(",}", "}"),
    ),
  );
  whole(
    "opened",
    "script in every text field",
    record((one) => scripted(one)),
  );
  whole(
    "refused",
    "10^6 dimensions",
    bench((one) => (one.dimensions = Array.from({ length: 1e6 }, () => 0))),
  );
  whole(
    "opened",
    "1,000 dimensions at one place",
    bench((one) => (one.dimensions = dimensionsAtOnePlace(one, 1_000))),
  );
  whole(
    "refused",
    "5,001 lanes",
    bench((one) => (one.lanes = lanesOf(one, 5_001))),
  );
  whole(
    "opened",
    "5,000 lanes of nothing",
    bench((one) => (one.lanes = [...one.lanes, ...lanesOf(one, 4_900)])),
  );
  whole(
    "refused",
    "a note of 30 MB",
    record((one) => (one.notes = "x".repeat(30e6))),
  );
  whole(
    "opened",
    "ids of odd letters in the bench",
    bench((one) => (one.dimensions = [{ ...dimensionsAtOnePlace(one, 1)[0], id: "\u0000\u202e/../\"'<>&🜂\ud800" }])),
  );
  whole(
    "refused",
    "an id of the job that climbs",
    record((one) => (one.id = "../../x")),
  );
  whole(
    "refused",
    "an id of the job of odd letters",
    record((one) => (one.id = "job\u202e🜂")),
  );
  whole(
    "refused",
    "an exhibit's name that climbs",
    record((one) => (one.exhibits[0].svg = "../x.svg")),
  );
  whole(
    "refused",
    "a recording's id that climbs",
    record((one) => (one.captures[0].id = "../../x")),
  );
  whole(
    "refused",
    "numbers that are none",
    raw(JSON.stringify({ ...job, id: "hostile-nan" }).replace(/"share":\s*1\b/, '"share":1e999')),
  );
  put("refused", "brackets 10^6 deep", zipOf([raw("[".repeat(1e6) + "]".repeat(1e6)), ...others]));
  put(
    "refused",
    "a record in UTF-16",
    zipOf([{ name: "job.json", bytes: new Uint8Array(Buffer.from(text, "utf16le")) }, ...others]),
  );
  const other = strToU8(new TextDecoder().decode(recording.bytes).replace("0.450", "0.451").replace("0.850", "0.851"));
  put(
    "told",
    "a recording that is not the one of the record",
    zipOf([record(), ...exhibits, { ...recording, bytes: other }]),
  );
  put(
    "told",
    "a recording that is a picture",
    zipOf([
      record(),
      ...exhibits,
      { ...recording, bytes: Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0) },
    ]),
  );
  const elsewhere = (one: Spoiled) => {
    one.captures[0].id = "f".repeat(64); // one that is not in this browser either
    one.captures[0].sha256 = "f".repeat(64);
  };
  put("told", "its recording missing", zipOf([record(elsewhere), ...exhibits]));
  put(
    "opened",
    "exhibits that are scripts",
    zipOf([
      record(),
      recording,
      ...exhibits.map((one) => ({
        ...one,
        bytes: strToU8(
          '<svg xmlns="http://www.w3.org/2000/svg" onload="window.ran=1"><script>window.ran=1</script></svg>',
        ),
      })),
    ]),
  );
  return made;
}

const script = `"><img src=x onerror="window.ran=1"><script>window.ran=1</script>`;
/** Texts that name something or are one of a set are left as they are. */
const fixed =
  /^(id|version|svg|png|sha256|kind|grade|unit|paper|role|madeAt|createdAt|changedAt|captureId|laneId|channelId|lookedAt|to|scale|bank|compared|fileName)$/i;

function scripted(value: Spoiled): void {
  for (const [key, one] of Object.entries(value)) {
    if (typeof one === "string" && !fixed.test(key) && !Array.isArray(value)) value[key] = script;
    else if (typeof one === "object" && one !== null) scripted(one);
  }
}

function dimensionsAtOnePlace(bench: Spoiled, count: number): readonly Spoiled[] {
  const laneId = bench.lanes[0].id;
  const reading = { value: 1, low: 0.9, high: 1.1, unit: "s", grade: "measured" };
  const dimension = (i: number) => ({
    id: `d${i}`,
    kind: "time",
    laneId,
    from: { time: 10, level: 0.4 },
    to: { time: 11, level: 0.4 },
    place: 0.5,
    label: script,
    reading,
  });
  return Array.from({ length: count }, (_, i) => dimension(i));
}

const lanesOf = (_bench: Spoiled, count: number) =>
  Array.from({ length: count }, (_, i) => ({ id: `lane-${i}`, channelIds: [], scale: "fit", share: 1 }));
