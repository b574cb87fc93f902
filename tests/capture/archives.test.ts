import { gzipSync, strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { channel, open, problemOf, remarks, values } from "./open.ts";

const csv = strToU8("Time (s),Front O2 (V),Rear O2 (V)\n0.000,0.45,0.6\n0.001,0.46,0.61\n0.002,0.47,0.62\n");

describe("archives", () => {
  test("gzip opens as what it holds, two members as one text", async () => {
    expect(values(channel(await open(gzipSync(csv)), "rear-o2"))).toEqual([0.6, 0.61, 0.62]);
    const two = new Uint8Array([...gzipSync(csv), ...gzipSync(strToU8("0.003,0.48,0.63\n"))]);
    const capture = await open(two);
    expect(values(channel(capture, "rear-o2"))).toEqual([0.6, 0.61, 0.62, 0.63]);
    expect(remarks(capture)).not.toContain("checksum");
  });

  test("zip takes the only recording, or asks which", async () => {
    const one = zipSync({ "readme.md": strToU8("x"), "run/a.csv": csv });
    expect((await open(one)).format).toContain("run/a.csv");
    const two = zipSync({ "a.csv": csv, "b.csv": csv });
    expect(await problemOf(two)).toMatchObject({
      code: "unclear",
      remedy: expect.stringContaining("a.csv, b.csv"),
    });
    expect(values(channel(await open(two, { member: "b.csv" }), "front-o2"))).toEqual([0.45, 0.46, 0.47]);
    expect((await problemOf(two, { member: "c.csv" })).code).toBe("wrong-choice");
  });

  test("a flipped bit inside shows in the checksum", async () => {
    const bytes = zipSync({ "a.csv": [csv, { level: 0 }] });
    const at = bytes.findIndex((_, i) => bytes.subarray(i, i + 4).toString() === strToU8("0.47").toString());
    bytes[at + 3] = 0x38;
    const capture = await open(bytes);
    expect(values(channel(capture, "front-o2"))[2]).toBe(0.48);
    expect(remarks(capture)).toContain("checksum does not fit");
  });

  test("a cut gzip gives what it still holds", async () => {
    const rows = Array.from(
      { length: 20_000 },
      (_, i) => `${(i / 1000).toFixed(3)},${Math.sin(i).toFixed(3)},${Math.cos(i * i).toFixed(3)}`,
    );
    const whole = gzipSync(strToU8(`Time (s),Front O2 (V),Rear O2 (V)\n${rows.join("\n")}\n`));
    const capture = await open(whole.subarray(0, whole.length - 70_000));
    expect(remarks(capture)).toContain("damaged or cut off");
    expect(capture.channels[0]!.series.samples.length).toBeGreaterThan(100);
  });

  test("a bomb, an office document and an archive of archives of archives are refused", async () => {
    const zeros = new Uint8Array(8 * 1024 * 1024);
    const bomb = gzipSync(zeros);
    expect((await problemOf(gzipSync(gzipSync(gzipSync(csv))))).code).toBe("unknown-form");
    expect((await problemOf(zipSync({ "[Content_Types].xml": csv, "sheet.xml": csv }))).code).toBe("not-a-recording");
    expect((await problemOf(bomb)).code).toBe("unknown-form");
  });
});
