import { describe, expect, test } from "vitest";
import { open, problemOf, times, values } from "./open.ts";

// One known recording, written by this test in every dialect. Its numbers are the check.
const step = 0.2;
const rows = Array.from({ length: 14 }, (_, i) => ({
  seconds: i * step,
  front: [0.1, 0.45, 0.8, 0.85, 0.5, 0.25, 0.12][i % 7]!,
  rear: i === 5 ? Number.NaN : Number((0.6 + i * 0.005).toFixed(3)),
  rpm: 1850 + 12.5 * i,
  coolant: 85 + (i >> 2),
}));

const delimiters = [",", ";", "\t", "|", " "] as const;
const marks = [".", ","] as const;
const headers = ["none", "brackets", "slash", "unit row"] as const;
const timeForms = ["s", "ms", "clock", "iso", "epoch", "date and clock"] as const;
const lineEnds = ["\n", "\r\n", "\r"] as const;
const encodings = [
  "utf-8",
  "utf-8 with mark",
  "utf-16le",
  "utf-16be",
  "latin-1",
  "utf-32le with mark",
  "utf-32be",
] as const;
const missing = ["", "-", "NaN", "#VALUE!", "---"] as const;

interface Dialect {
  readonly delimiter: (typeof delimiters)[number];
  readonly mark: (typeof marks)[number];
  readonly header: (typeof headers)[number];
  readonly time: (typeof timeForms)[number];
  readonly lineEnd: (typeof lineEnds)[number];
  readonly encoding: (typeof encodings)[number];
  readonly missing: string;
}

const names = ["Sonde 1", "Sonde 2", "Drehzahl", "Kühlmittel"];
const units = ["V", "V", "U/min", "°C"];

function written({ delimiter, mark, header, time, missing: hole }: Dialect, lineEnd: string): string {
  const decimal = (value: number, digits: number) => value.toFixed(digits).replace(".", mark);
  const cell = (text: string) => (text.includes(delimiter) && delimiter !== " " ? `"${text}"` : text);
  const twoDigits = (value: number) => String(value).padStart(2, "0");
  const clock = (seconds: number) => {
    const tenths = Math.round(seconds * 10) + 10 * (23 * 3600 + 59 * 60 + 58);
    const day = Math.floor(tenths / 864_000);
    const [h, m, s] = [Math.floor(tenths / 36_000) % 24, Math.floor(tenths / 600) % 60, (tenths / 10) % 60];
    return { day, text: `${twoDigits(h)}:${twoDigits(m)}:${twoDigits(Math.floor(s))}${mark}${tenths % 10}` };
  };
  const timeCells = (seconds: number): string[] => {
    if (time === "s") return [decimal(seconds, 1)];
    if (time === "ms") return [String(Math.round(seconds * 1000))];
    if (time === "epoch") return [String(1_714_560_000_000 + Math.round(seconds * 1000))];
    const { day, text } = clock(seconds);
    if (time === "clock") return [text];
    return time === "iso" ? [`2024-05-0${1 + day}T${text}`] : [`0${1 + day}.05.2024`, text];
  };
  const timeNames = time === "date and clock" ? ["Datum", "Uhrzeit"] : ["Zeit"];
  const timeUnits = timeNames.map(() => (time === "s" || time === "ms" ? time : ""));
  const titled = (form: (name: string, unit: string) => string) => [
    ...timeNames.map((name, i) => (timeUnits[i] ? form(name, timeUnits[i]) : name)),
    ...names.map((name, i) => form(name, units[i]!)),
  ];
  const spaceless = (text: string) => (delimiter === " " ? text.replaceAll(" ", "") : text);
  const above: Record<Dialect["header"], string[][]> = {
    none: [],
    brackets: [titled((name, unit) => `${name} [${unit}]`)],
    slash: [titled((name, unit) => `${name}/${unit}`)],
    "unit row": [titled((name) => name), [...timeUnits.map((unit) => unit || "-"), ...units]],
  };
  const body = rows.map(({ seconds, front, rear, rpm, coolant }) => [
    ...timeCells(seconds),
    decimal(front, 3),
    Number.isNaN(rear) ? hole : decimal(rear, 3),
    decimal(rpm, 1),
    String(coolant),
  ]);
  const lines = [...above[header].map((row) => row.map(spaceless)), ...body].map((row) =>
    row.map(cell).join(delimiter),
  );
  return lines.join(lineEnd) + lineEnd;
}

function encoded(text: string, encoding: Dialect["encoding"]): Uint8Array {
  if (encoding.startsWith("utf-8")) return new TextEncoder().encode(encoding === "utf-8" ? text : `\ufeff${text}`);
  if (encoding === "latin-1") return Uint8Array.from(text, (character) => character.charCodeAt(0));
  if (encoding === "utf-32be" || encoding === "utf-32le with mark") return inFourBytes(text, encoding);
  const bytes = new Uint8Array(2 * text.length);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), encoding === "utf-16le");
  return bytes;
}

function inFourBytes(text: string, encoding: "utf-32le with mark" | "utf-32be"): Uint8Array {
  const letters = [...(encoding === "utf-32be" ? text : `\ufeff${text}`)];
  const view = new DataView(new ArrayBuffer(4 * letters.length));
  letters.forEach((letter, i) => {
    view.setUint32(4 * i, letter.codePointAt(0)!, encoding !== "utf-32be");
  });
  return new Uint8Array(view.buffer);
}

/** Delimiter, mark, header and time crossed; the rest turns so that every pair occurs. */
function dialects(): Dialect[] {
  const all: Dialect[] = [];
  let turn = 0;
  for (const delimiter of delimiters)
    for (const mark of marks)
      for (const header of headers)
        for (const time of timeForms)
          for (let again = 0; again < 3; again++) {
            const [lineEnd, encoding] = [lineEnds[turn % 3]!, encodings[turn % encodings.length]!];
            // Runs of blanks cannot show an empty cell.
            const holes = delimiter === " " ? missing.slice(1) : missing;
            all.push({
              delimiter,
              mark,
              header,
              time,
              lineEnd,
              encoding,
              missing: holes[(turn + again) % holes.length]!,
            });
            turn++;
          }
  return all;
}

const expected = (pick: (row: (typeof rows)[number]) => number) => rows.map(pick);

describe("one recording in every dialect", () => {
  const all = dialects();

  test("there are at least 500 dialects", () => {
    expect(all.length).toBeGreaterThanOrEqual(500);
  });

  test.each(delimiters)("gives the same samples with delimiter %j", async (delimiter) => {
    for (const dialect of all.filter((one) => one.delimiter === delimiter)) {
      const label = JSON.stringify(dialect);
      const hasUnit = dialect.header !== "none" || !["ms", "epoch"].includes(dialect.time);
      const capture = await open(encoded(written(dialect, dialect.lineEnd), dialect.encoding)).catch((error: Error) => {
        throw new Error(`${label}: ${error.message}`);
      });
      expect(capture.channels.map(values), label).toEqual([
        expected(({ front }) => front),
        expected(({ rear }) => rear),
        expected(({ rpm }) => rpm),
        expected(({ coolant }) => coolant),
      ]);
      for (const one of capture.channels) {
        times(one).forEach((time, i) => {
          expect(time, label).toBeCloseTo(i * step, 9);
        });
      }
      if (dialect.header !== "none" && hasUnit)
        expect(
          capture.channels.map(({ role }) => role),
          label,
        ).toEqual(["front-o2", "rear-o2", "engine-speed", "coolant-temp"]);
    }
  });

  test("comma as separator and decimal mark, unquoted, asks", async () => {
    const unquoted = written(
      { delimiter: ",", mark: ",", header: "brackets", time: "s", lineEnd: "\n", encoding: "utf-8", missing: "0,600" },
      "\n",
    ).replaceAll('"', "");
    const problem = await problemOf(unquoted.replace(/,(8\d)\n/g, ",$1,0\n"));
    expect(problem.code).toBe("unclear");
  });
});
