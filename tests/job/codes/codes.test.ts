import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { codeOfBytes, definedBy, systemOf } from "../../../src/job/codes/code.ts";
import { codesInReplies } from "../../../src/job/codes/code-replies.ts";
import { codesInText, emptyListsIn } from "../../../src/job/codes/code-text.ts";
import { meaningOf } from "../../../src/job/codes/code-words.ts";
import { cureOrder } from "../../../src/job/codes/cure-first.ts";

const bytes = (hex: string) => hex.split(" ").map((one) => Number.parseInt(one, 16)) as [number, number];
const names = (text: string, bus?: "can" | "older") => codesInReplies(text, bus).codes.map(({ code }) => code);

describe("the structure of a code", () => {
  // Closed form of the two fields: letter in bits 15-14, first digit in bits 13-12, three hex digits.
  test.each([
    ["04 20", "P0420"],
    ["01 33", "P0133"],
    ["21 95", "P2195"],
    ["22 70", "P2270"],
    ["03 04", "P0304"],
    ["52 34", "C1234"],
    ["91 23", "B1123"],
    ["C1 00", "U0100"],
  ])("%s is %s", (hex, code) => expect(codeOfBytes(...bytes(hex))).toBe(code));

  test("zeros are no code", () => expect(codeOfBytes(0, 0)).toBeNull());

  test("every pair of bytes but zeros is one code of its own", () => {
    const all = new Set<string>();
    for (let value = 1; value < 65536; value++) all.add(codeOfBytes(value >> 8, value & 255)!);
    expect(all.size).toBe(65535);
  });

  // Generic ranges from memory.
  test.each([
    ["P0420", "standard"],
    ["P1420", "maker"],
    ["P2195", "standard"],
    ["P3100", "maker"],
    ["P3400", "standard"],
    ["C1234", "maker"],
    ["U0100", "standard"],
  ] as const)("%s is defined by the %s", (code, by) => expect(definedBy(code)).toBe(by));

  test("a maker's own code gets no words of ours", () => {
    expect(meaningOf("P1420").says).toContain("only the maker's data tells");
    expect(systemOf("C1234")).toBe("chassis");
  });

  // Meanings from memory, J2012.
  test.each([
    ["P0135", "heater", "front oxygen sensor, bank 1"],
    ["P0141", "heater", "rear oxygen sensor, bank 1"],
    ["P0161", "heater", "rear oxygen sensor, bank 2"],
    ["P0139", "sensor", "rear oxygen sensor, bank 1: slow response"],
    ["P013C", "sensor", "rear oxygen sensor, bank 2: slow from rich to lean"],
    ["P014A", "sensor", "rear oxygen sensor, bank 2: late from rich to lean"],
    ["P015B", "sensor", "front oxygen sensor, bank 1: late from lean to rich"],
    ["P2A03", "sensor", "front oxygen sensor, bank 2"],
    ["P0312", "misfire", "cylinder 12"],
    ["P0431", "catalyst", "warm-up catalyst"],
    ["P0104", "air-meter", "comes and goes"],
  ])("%s is of the %s", (code, concern, words) => {
    expect(meaningOf(code)).toMatchObject({ concern, says: expect.stringContaining(words) });
  });
});

describe("codes out of replies", () => {
  test.each([
    ["a CAN frame", "7E8 06 43 02 04 20 01 33 00", ["P0420", "P0133"]],
    ["a CAN frame without spaces", "7E806430204200133", ["P0420", "P0133"]],
    ["a frame with 29 bits", "18 DA F1 10 06 43 02 04 20 01 33", ["P0420", "P0133"]],
    ["a frame without its identifier", "06 43 02 04 20 01 33", ["P0420", "P0133"]],
    ["a bare list with its count", "43 02 04 20 01 33", ["P0420", "P0133"]],
    ["marked bytes", "0x43, 0x02, 0x04, 0x20, 0x01, 0x33", ["P0420", "P0133"]],
    ["a header and a check byte of an older bus", "48 6B 10 43 01 33 04 20 00 00 1A", ["P0133", "P0420"]],
    ["a labelled line", "12:01:33 reply: 43 02 04 20 01 33", ["P0420", "P0133"]],
    [
      "several frames",
      "7E8 10 0A 43 04 04 20 01 33\n7E8 21 21 95 C1 00 00 00 00",
      ["P0420", "P0133", "P2195", "U0100"],
    ],
    [
      "frames of two modules mixed",
      "7E8 10 0A 43 04 04 20 01 33\n7E9 04 43 01 07 25\n7E8 21 21 95 C1 00",
      ["P0420", "P0133", "P2195", "U0100", "P0725"],
    ],
    ["frames without identifiers", "10 08 43 03 04 20 01 33\n21 22 70", ["P0420", "P0133", "P2270"]],
    ["no code at all", "7E8 02 43 00", []],
  ])("of %s", (_, text, wanted) => expect(names(text)).toEqual(wanted));

  test("tell stored, pending and permanent apart, and join them", () => {
    const { codes, answered } = codesInReplies("7E8 04 43 01 04 20\n7E8 04 47 01 04 20\n7E8 04 4A 01 03 04");
    expect(codes).toEqual([
      { code: "P0420", states: ["stored", "pending"] },
      { code: "P0304", states: ["permanent"] },
    ]);
    expect(answered).toEqual(["stored", "pending", "permanent"]);
  });

  test("choose neither way where both fit, until the bus is said", () => {
    const text = "43 01 33 00 00 00 00";
    expect(codesInReplies(text).codes).toEqual([]);
    expect(codesInReplies(text).unread[0]!.says).toContain("P3300 on CAN, P0133 on an older bus");
    expect(names(text, "older")).toEqual(["P0133"]);
    expect(names(text, "can")).toEqual(["P3300"]);
  });

  test("name the part that is missing, the refusal, and what is not understood", () => {
    expect(codesInReplies("7E8 10 0A 43 04 04 20 01 33").unread).toEqual([
      { line: 1, says: "A part is missing: 6 of 10 bytes are there. Copy all frames of the reply." },
    ]);
    expect(codesInReplies("7E8 10 0A 43 04 04 20 01 33\n7E8 22 00").unread).toHaveLength(1);
    expect(codesInReplies("7F 03 12").unread[0]!.says).toContain("refused");
    expect(codesInReplies("see the order\n41 0C 1A F8").unread).toEqual([
      { line: 2, says: "Not understood: 41 0C 1A F8. A reply begins with 43, 47, 4A here." },
    ]);
  });

  test("never throw, and never make up a code where the count does not fit", () => {
    fc.assert(fc.property(fc.string(), (text) => void codesInReplies(text)));
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[0-9A-F]{2}$/), { maxLength: 40 }), (hex) => {
        codesInReplies(hex.join(" "));
        codesInReplies(`7E8 ${hex.join(" ")}`);
      }),
    );
    expect(names("7E8 06 43 05 04 20 01 33")).toEqual([]);
  });
});

describe("codes out of text", () => {
  test("are found wherever they stand, each once", () => {
    const text = "Customer: lamp on. p0420, P 0133-00; pending: P0304.\nU0100 (bus)";
    expect(codesInText("came for P0420 and p0133, again P0420").map(({ code }) => code)).toEqual(["P0420", "P0133"]);
    expect(codesInText(text).map(({ code }) => code)).toEqual(["P0420", "P0133", "P0304", "U0100"]);
  });

  test("take the state from the line, else from the heading above", () => {
    expect(codesInText("Pending codes\nP0420\nPermanent codes\nP0420\nP0304 stored")).toEqual([
      { code: "P0420", states: ["pending", "permanent"] },
      { code: "P0304", states: ["stored"] },
    ]);
  });

  // As a technician would read each line; no standard rules how people write.
  test.each([
    ["Stored: P0420, P0171. Pending: P0302. Permanent: P0420", "P0420 stored permanent, P0171 stored, P0302 pending"],
    ["The lamp: P0420 came back after P0171; pending: P0302", "P0420 stored, P0171 stored, P0302 pending"],
    ["P0420 pending P0171 stored", "P0420 pending, P0171 stored"],
    ["Pending P0420 stored P0171", "P0420 pending, P0171 stored"],
    ["P0171 and P0174 pending, P0420 (stored, permanent)", "P0171 pending, P0174 pending, P0420 stored permanent"],
    ["P0420, P0133 pending", "P0420 stored, P0133 pending"],
    ["No pending codes\nP0420", "P0420 stored"],
    ["Pending codes: none\nP0420", "P0420 stored"],
    ["No permanent codes. Pending P0420", "P0420 pending"],
  ])("each takes its own state: %s", (text, wanted) => {
    const told = codesInText(text).map(({ code, states }) => `${code} ${states.join(" ")}`);
    expect(told.join(", ")).toBe(wanted);
  });

  test("a list that was read and holds none is told", () => {
    expect(emptyListsIn("P0420 stored, no pending or permanent codes")).toEqual(["pending", "permanent"]);
    expect(emptyListsIn("Stored: 0\nPending codes: none")).toEqual(["stored", "pending"]);
    expect(emptyListsIn("P0420 pending, stored P0171")).toEqual([]);
    expect(emptyListsIn("Pending Codes\n-------\nP0171\n\nPermanent Codes\n-------\nNone")).toEqual(["permanent"]);
    expect(emptyListsIn("Pending trouble codes (0)\nStored: no codes")).toEqual(["stored", "pending"]);
  });

  test("a letter O for a zero is mended, a word stays a word", () => {
    expect(codesInText("PO420 and P042O, coded").map(({ code }) => code)).toEqual(["P0420"]);
    expect(codesInText("the maker's P1ABC").map(({ code }) => code)).toEqual(["P1ABC"]);
  });

  test("a blank after the letter is a slip, but not after degrees Celsius", () => {
    const told = codesInText("P 0420, C 1234, U 0100, B-1123, C-1234; coolant 90 C 2000 rpm, 83°C 1500, 83 ° C\t1200");
    expect(told.map(({ code }) => code)).toEqual(["P0420", "C1234", "U0100", "B1123"]);
  });

  test("part numbers are no codes", () => expect(codesInText("Part XP04201, order 0420, P04200")).toEqual([]));
});

describe("what is cured first", () => {
  const codes = ["P0420", "P0171", "U0100", "P0304", "P0141", "P1234", "P2279", "C1234"].map((code) => ({
    code,
    states: ["stored" as const],
  }));

  // Common practice: misfire, heaters and circuits, mixture, leaks before the catalyst.
  test("stands in order, with every code in one place", () => {
    const order = cureOrder(codes);
    expect(order.first.map((step) => step.codes.map(({ code }) => code))).toEqual([
      ["P0304"],
      ["P0141"],
      ["P0171"],
      ["P2279"],
    ]);
    expect(order.catalyst.map(({ code }) => code)).toEqual(["P0420"]);
    expect(order.apart.map(({ code }) => code)).toEqual(["U0100", "C1234"]);
    expect(order.others.map(({ code }) => code)).toEqual(["P1234"]);
    expect(order.first.map(({ title }) => title).slice(0, 2)).toEqual([
      "Misfire",
      "Heaters and circuits of the oxygen sensors",
    ]);
  });

  test("is nothing where only the catalyst code stands", () => {
    expect(cureOrder(codes.slice(0, 1)).first).toEqual([]);
  });
});

describe("a reply as logs and people write it", () => {
  // Count 6, codes by the closed form above, then filling; the same bytes each time.
  const six = ["P0420", "P0171", "P0304", "P0130", "P0135", "P2195"];
  test.each([
    ["numbered lines", "00E\n0: 43 06 04 20 01 71\n1: 03 04 01 30 01 35 21\n2: 95 00 00 00 00 00 00", six],
    ["an identifier tied to its bytes", "(12.5) can0 7E8#0643020420017100", ["P0420", "P0171"]],
    ["dashes between bytes", "43-02-04-20-01-71", ["P0420", "P0171"]],
    ["colons between bytes", "43:02:04:20:01:71", ["P0420", "P0171"]],
    ["a clock before it", "12:00:01.123 7e8 06 43 02 04 20 01 71", ["P0420", "P0171"]],
    ["what was asked before it", ">03\r7E8 06 43 02 04 20 01 71\r>", ["P0420", "P0171"]],
    ["what was asked, as a frame", "7E0 01 03 00\n7E8 06 43 02 04 20 01 71", ["P0420", "P0171"]],
    ["a prompt behind it", "43 02 04 20 01 71 >", ["P0420", "P0171"]],
    ["brackets around it", "[0x7E8, 0x06, 0x43, 0x02, 0x04, 0x20, 0x01, 0x71]", ["P0420", "P0171"]],
    ["several on a line, each with its label", "03: 43 01 04 20, 07: 47 01 01 71; 0A: 4A 00", ["P0420", "P0171"]],
  ])("%s", (_, text, wanted) => {
    expect(names(text)).toEqual(wanted);
    expect(codesInReplies(text).unread).toEqual([]);
  });

  test("a numbered line left out is said", () => {
    const { codes, unread } = codesInReplies("0: 43 06 04 20 01 71\n2: 95 00 00 00 00 00 00");
    expect(codes).toEqual([]);
    expect(unread.map(({ line }) => line)).toEqual([2, 1]);
  });

  // Two modules of four codes each: P0420, P0171, P0304, P0130 and P0135, P2195, P0300, P0301; nothing says which line is whose.
  const [engine, gearbox] = [
    ["43 04 04 20 01 71", "03 04 01 30 00 00 00"],
    ["43 04 01 35 21 95", "03 00 03 01 00 00 00"],
  ] as const;
  const numbered = ([first, second]: readonly [string, string]) => ["00A", `0: ${first}`, `1: ${second}`] as const;
  const framed = ([first, second]: readonly [string, string]) => [`10 0A ${first}`, `21 ${second}`] as const;
  const [e, g] = [numbered(engine), numbered(gearbox)];
  const [ef, gf] = [framed(engine), framed(gearbox)];
  test.each([
    ["numbered lines", [e[0], g[0], e[1], g[1], e[2], g[2]]],
    ["numbered lines without their length", [e[1], g[1], e[2], g[2]]],
    ["numbered lines, crossed", [e[0], e[1], g[0], g[1], g[2], e[2]]],
    ["numbered lines of which the last is lost", [e[0], g[0], e[1], g[1], e[2]]],
    ["frames", [ef[0], gf[0], ef[1], gf[1]]],
    ["frames of which the last is lost", [ef[0], gf[0], ef[1]]],
  ])("two modules' replies in one another are not believed: %s", (_, lines) => {
    const { codes, answered, unread } = codesInReplies(lines.join("\n"));
    expect([codes, answered]).toEqual([[], []]);
    expect(unread.length).toBeGreaterThan(0);
  });

  test.each([
    ["numbered lines", [...e, ...g]],
    ["frames", [...ef, ...gf]],
  ])("two modules' replies one after the other are both read: %s", (_, lines) => {
    const read = codesInReplies(lines.join("\n"));
    expect(read.codes).toHaveLength(8);
    expect(read.unread).toEqual([]);
  });

  test("a refusal is said as one", () => {
    expect(codesInReplies("7E8 03 7F 03 11 00 00 00 00").unread[0]?.says).toContain("refused");
    expect(codesInReplies("83 F1 11 7F 03 11 18").unread[0]?.says).toContain("refused");
  });
});
