import { gzipSync, strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { WaveFile } from "wavefile";
import { memorySource } from "../../src/capture/bytes/sources.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import { previewCapture } from "../../src/capture/preview.ts";

const preview = (content: string | Uint8Array, choices: ReadChoices = {}) =>
  previewCapture(memorySource(typeof content === "string" ? strToU8(content) : content, "recording"), choices);

const asked = async (content: string | Uint8Array, choices?: ReadChoices) =>
  (await preview(content, choices)).questions.map(({ about }) => about);

describe("the question screen", () => {
  test("stands up to a file of nothing but line ends", async () => {
    const { problem, rows } = await preview("\n".repeat(400_000));
    expect([problem?.code, rows]).toEqual(["no-numbers", []]);
  });

  test("shows text of four bytes a letter as the same text of one", async () => {
    const text = `Zeit (s),Sonde 1 (V)\n${Array.from({ length: 40 }, (_, i) => `${i / 10},0.4${i % 9}`).join("\n")}\n`;
    const letters = Uint32Array.from(text, (letter) => letter.codePointAt(0)!); // low byte first, as on every machine of today
    const { rows, columns, problem } = await preview(new Uint8Array(letters.buffer));
    const plain = await preview(text);
    expect([rows, columns, problem]).toEqual([plain.rows, plain.columns, null]);
  });

  // Orders of all of them were four million answers, and took half a minute.
  test("names a few of hundreds of channels that move like sensors, and asks about those", async () => {
    const row = (i: number) => Array.from({ length: 300 }, (_, c) => ((i * (c + 1)) % 97) / 97);
    const rows = Array.from({ length: 100 }, (_, i) => `${i / 10},${row(i).join(",")}`);
    const { questions, remarks } = await preview(`Time (s),${row(0).map((_, c) => `c${c}`)}\n${rows.join("\n")}\n`);
    const [{ text, answers } = { text: "", answers: [] }] = questions;
    expect(text).toMatch(/^c0, c1, .* and 29\d others move like oxygen sensors/);
    expect([text.length < 200, answers.length]).toEqual([true, 6]);
    expect(Math.max(...remarks.map((remark) => remark.text.length))).toBeLessThan(400);
  });

  test("asks nothing of a plain recording, and shows what was assumed", async () => {
    const { questions, problem, assumed, columns, rows } = await preview(
      "Zeit;Sonde 1 [mV];Notiz\n0,0;450;a\n0,5;460;b\n1,0;-;c\n",
    );
    expect([questions, problem]).toEqual([[], null]);
    expect(assumed).toMatchObject({
      delimiter: ";",
      decimalMark: ",",
      hasHeader: true,
      timeColumn: "Zeit",
      timeUnit: 1,
    });
    expect(columns.map(({ name, use, role, unit }) => [name, use, role, unit])).toEqual([
      ["Zeit", "time", "other", "s"],
      ["Sonde 1", "channel", "front-o2", "mV"],
      ["Notiz", "left-out", "other", ""],
    ]);
    expect(rows).toEqual([
      [0, 0.45],
      [0.5, 0.46],
      [1, null],
    ]);
  });

  test("asks what only the user can know, and is content with the answer", async () => {
    const noTime = "Front,Rear\n0.1,0.2\n0.3,0.2\n0.2,0.3\n";
    expect(await asked(noTime)).toEqual(["time"]);
    expect((await preview(noTime)).rows[1]).toEqual([null, 0.3, 0.2]);
    expect(await asked(noTime, { rate: 100 })).toEqual([]);
    const both = "Zeit,Vorne,Hinten\n0,000,0,450,0,600\n0,100,0,460,0,600\n";
    expect(await asked(both)).toContain("delimiter");
    expect(await asked(both, { delimiter: ",", decimalMark: "," })).toEqual([]);
    expect(await asked("Time (s),CH1 (V),CH2 (V)\n0,0.1,0.2\n0.1,0.2,0.3\n0.2,0.2,0.3\n")).toEqual(["roles"]);
  });

  test("asks for the full scale of a WAV once", async () => {
    const file = new WaveFile();
    file.fromScratch(1, 100, "16", [Int16Array.from([0, 8192, 16384])]);
    expect(await asked(file.toBuffer())).toContain("layout");
    const { questions, rows } = await preview(file.toBuffer(), { layout: "scale=2 unit=V" });
    expect(questions.map(({ about }) => about)).not.toContain("layout");
    expect(rows.map(([, value]) => value)).toEqual([0, 0.5, 1]);
  });

  test("channels that move like sensors come with both orders as answers", async () => {
    const rows = Array.from({ length: 60 }, (_, i) => `${i / 10},${i % 20 < 10 ? 0.1 : 0.8},${0.6 + (i % 30) / 200}`);
    const text = `Time (s),CH1 (V),CH2 (V)\n${rows.join("\n")}\n`;
    const [question] = (await preview(text)).questions;
    expect(question!.answers.map(({ text: answer }) => answer)).toEqual([
      "CH1 before, CH2 after",
      "CH2 before, CH1 after",
    ]);
    const told = await preview(text, question!.answers[1]!.choices);
    expect(told.questions).toEqual([]);
    expect(told.columns.map(({ role }) => role)).toEqual(["other", "rear-o2", "front-o2"]);
  });

  test("unpacks only the head of a packed text", async () => {
    const rows = Array.from({ length: 400_000 }, (_, i) => `${i / 100},${((i * 7919) % 997) / 1000}`).join("\n");
    const packed = gzipSync(strToU8(`Time (s),Front (V)\n${rows}\n`));
    let taken = 0;
    const source = memorySource(packed, "long.csv.gz");
    const counted = {
      ...source,
      read: (from: number, to: number) => {
        taken += to - from;
        return source.read(from, to);
      },
    };
    expect((await previewCapture(counted, {})).columns.map(({ role }) => role)).toEqual(["other", "front-o2"]);
    expect(taken).toBeLessThan(packed.length / 2);
  });

  test("shows the comma as both where that is the answer", async () => {
    const rows = Array.from({ length: 20 }, (_, i) => `${i},5,0,${10 + i},0,${30 + i}`).join("\n");
    expect(await asked(`Time,Front,Rear\n${rows}\n`)).toContain("delimiter");
    const both = await preview(`Time,Front,Rear\n${rows}\n`, { delimiter: ",", decimalMark: "," });
    expect(both.assumed).toMatchObject({ delimiter: ",", decimalMark: "," });
    expect(both.rows[1]).toEqual([1, 0.11, 0.31]); // s after the first row, V
  });

  test("shows every change at once", async () => {
    const text = "t,a,b\n0,100,1\n1,200,2\n2,300,3\n";
    const changed = await preview(text, { timeUnit: 0.001, roles: { a: "rear-o2" }, units: { a: "mV" } });
    expect(changed.columns[1]).toMatchObject({ role: "rear-o2", unit: "mV", rowsUnit: "V" });
    expect(changed.rows[1]).toEqual([0.001, 0.2, 2]);
    expect((await preview(text, { timeColumn: "b" })).assumed).toMatchObject({ timeColumn: "b" });
    expect((await preview(text, { hasHeader: false })).assumed).toMatchObject({ hasHeader: false });
  });

  test("offers the members of an archive, and looks into the chosen one", async () => {
    const csv = strToU8("Time (s),Front (V)\n0,0.1\n1,0.2\n2,0.3\n");
    const zip = zipSync({ "a.csv": csv, "b.csv": csv });
    const closed = await preview(zip);
    expect(closed.questions[0]!.about).toBe("member");
    expect(closed.members.map(({ name }) => name)).toEqual(["a.csv", "b.csv"]);
    expect((await preview(zip, { member: "b.csv" })).rows.length).toBe(3);
  });

  test("tells what is wrong instead of throwing, and asks for the layout of unknown bytes", async () => {
    expect((await preview("")).problem?.code).toBe("empty");
    expect((await preview("%PDF-1.7\n")).problem?.code).toBe("not-a-recording");
    const raw = new Uint8Array(new Float32Array([1, 2, 3, 4, 5, 6]).buffer);
    expect(await asked(raw)).toContain("layout");
    expect((await preview(raw, { layout: "f32le channels=2 rate=10" })).rows).toEqual([
      [0, 1, 2],
      [0.1, 3, 4],
      [0.2, 5, 6],
    ]);
  });

  test("asks which number of a date is the day, where both may be, and no more once it is said", async () => {
    const rows = Array.from({ length: 40 }, (_, i) => `05/09/2026 10:00:${String(i).padStart(2, "0")},0.${i + 10}`);
    const text = `Time,Front O2 (V)\n${rows.join("\n")}\n`;
    const [question] = (await preview(text)).questions;
    expect(question!.about).toBe("dates");
    expect(question!.answers.map(({ choices }) => choices)).toEqual([
      { dateOrder: "day-first" },
      { dateOrder: "month-first" },
    ]);
    expect((await preview(text, { dateOrder: "day-first" })).questions).toEqual([]);
  });

  test("asks what becomes of many rows whose times do not rise, both readings side by side", async () => {
    // Two recorders wrote into one file: every third row is of another clock, and lies among the others' times.
    const rows = Array.from({ length: 90 }, (_, i) => `${i % 3 === 2 ? 20 + i / 10 : i},0.${10 + i}`);
    const seen = await preview(`Time (s),Front O2 (V)\n${rows.join("\n")}\n`);
    expect(seen.problem?.code).toBe("rows-lost");
    const [question] = seen.questions;
    expect(question!.about).toBe("disorder");
    expect(question!.answers.map(({ text: said }) => said)).toEqual([
      expect.stringMatching(/^Leave them out: \d+\u00a0rows, [\d.]+\u00a0s$/),
      expect.stringMatching(/^Put all in the order of their times: \d+\u00a0rows, [\d.]+\u00a0s$/),
    ]);
    for (const { choices } of question!.answers)
      expect((await preview(`Time (s),Front O2 (V)\n${rows.join("\n")}\n`, choices)).problem).toBeNull();
  });

  test("offers no order for rows whose times cannot be read", async () => {
    const rows = Array.from({ length: 90 }, (_, i) => `${i % 3 === 2 ? "torn" : i},0.${10 + i}`);
    const { problem, questions } = await preview(`Time (s),Front O2 (V)\n${rows.join("\n")}\n`);
    expect(problem?.what).toBe("30 of 90 rows have a time that cannot be read.");
    expect(problem?.remedy).not.toMatch(/sort/);
    expect(questions[0]!.answers.map(({ choices }) => choices)).toEqual([{ disorder: "leave-out" }]);
  });

  test("asks which of two channels is the sensor where both are named so alike", async () => {
    const rows = Array.from({ length: 40 }, (_, i) => `${i},0.${10 + i},0.${80 - i},0.7`);
    const seen = await preview(`Time (s),O2 B1S1 (V),Oxygen bank 1 sensor 1 (V),O2 B1S2 (V)\n${rows.join("\n")}\n`);
    const [question] = seen.questions;
    expect(question!.about).toBe("roles");
    expect(question!.answers[1]!.choices.roles).toEqual({ "O2 B1S1": "other", "Oxygen bank 1 sensor 1": "front-o2" });
  });

  test("knows files written alike", async () => {
    const one = await preview("Time (s);Front (V)\n0;1\n1;2\n2;3\n");
    const other = await preview("Time (s);Front (V)\n5;1\n6;4\n7;3\n8;1\n");
    expect(one.likeness).toBe(other.likeness);
  });

  test("takes no two files without a header for alike: a rate said of one need not hold for the next", async () => {
    expect((await preview("0,1\n1,2\n2,3\n", { hasHeader: false })).likeness).toBe("");
  });

  test("shows an impossible number of a sensor, again and again, as missing, and says so", async () => {
    const text = (unit: string, [mark, value]: readonly [number, number]) =>
      `Time (s),Front O2 (${unit})\n${[0, 1, 2, 3, 4].map((i) => `${i},${i % 2 === 0 ? mark : value}`).join("\n")}\n`;
    for (const [unit, numbers] of [
      ["V", [-999, 0.7]],
      ["mV", [-9999, 700]],
    ] as const) {
      const seen = await preview(text(unit, numbers));
      expect(seen.rows.map((row) => row[1])).toEqual([null, 0.7, null, 0.7, null]);
      expect(seen.questions).toEqual([]);
      expect(seen.remarks.some(({ text: said }) => said.includes('a mark for "no value"'))).toBe(true);
    }
    expect((await preview(text("V", [0.1, 0.7]))).questions).toEqual([]);
  });
});
