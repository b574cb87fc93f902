import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parametersInReplies } from "../../../src/job/parameters/parameter-replies.ts";
import { parametersInText } from "../../../src/job/parameters/parameter-text.ts";
import { catalystComplete, readinessOf } from "../../../src/job/parameters/readiness.ts";
import { readinessInText, withTold } from "../../../src/job/parameters/readiness-text.ts";
import { piecesOf } from "../../../src/job/parameters/text-pieces.ts";
import { numberAsTyped } from "../../../src/job/units/typed-number.ts";
import { plainWriting, writeAs } from "../../../src/signal/written/writing.ts";

const now = (text: string) => parametersInReplies(text, 0x41);

describe("scalings of services $01 and $02", () => {
  // Check values worked from the J1979 table as a general packet library codes it.
  test.each([
    ["41 0C 27 10", "engineSpeed", 2500, 0],
    ["41 10 04 B0", "airFlow", 12, 0.005],
    ["41 06 80", "shortTrim1", 0, 0.01],
    ["41 06 90", "shortTrim1", 12.5, 0.01],
    ["41 06 70", "shortTrim1", -12.5, 0.01],
    ["41 06 8A", "shortTrim1", 7.8125, 0.001],
    ["41 06 FF", "shortTrim1", 99.21875, 0.001],
    ["41 06 00", "shortTrim1", -100, 0.001],
    ["41 05 7B", "coolant", 83, 0],
    ["41 3C 1E 78", "catalystTemperature1", 740, 0.05],
    ["41 04 40", "load", 25.098, 0.01],
    ["41 0E 90", "timing", 8, 0],
    ["41 44 80 00", "wantedLambda", 1, 0.0007],
  ] as const)("%s: %s is %d", (text, id, value, within) => {
    expect(Math.abs(now(text).values[id]! - value)).toBeLessThanOrEqual(within);
  });
});

describe("a freeze frame out of bytes", () => {
  test("names its code and takes one item after the other", () => {
    const text = ["7E8 05 42 02 00 04 20", "7E8 05 42 0C 00 1F 40", "7E8 04 42 0D 00 4B", "7E8 05 42 03 00 02 00"].join(
      "\n",
    );
    expect(parametersInReplies(text, 0x42)).toEqual({
      values: { engineSpeed: 2000, roadSpeed: 75, fuelStatus1: 2, fuelStatus2: 0 },
      code: "P0420",
      monitorBytes: {},
      isAnswered: true,
      unread: [],
    });
  });

  test("holds several items in one reply of several frames", () => {
    const text = "7E8 10 0B 42 04 00 61 05 00\n7E8 21 7B 0C 00 1F 40 00 00";
    expect(parametersInReplies(text, 0x42).values).toMatchObject({ coolant: 83, engineSpeed: 2000 });
  });

  test("says what it does not know or what is cut short", () => {
    expect(parametersInReplies("42 0C 00 1F", 0x42).unread[0]!.says).toContain("Item 0C is cut short");
    expect(parametersInReplies("42 F1 00 1F", 0x42).unread[0]!.says).toContain("Item F1 is not known");
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[0-9A-F]{2}$/), { maxLength: 40 }), (hex) => {
        parametersInReplies(`42 ${hex.join(" ")}`, 0x42);
      }),
    );
  });
});

describe("readiness", () => {
  // Bit order from memory: byte C 1 = fitted, byte D 1 = not complete; bit 0 catalyst, 5 oxygen sensors, 6 their heaters.
  test("tells lamp, count, and what is not complete", () => {
    const readiness = readinessOf(now("41 01 82 07 65 01").monitorBytes[1]!, 0x01)!;
    expect(readiness).toMatchObject({ lamp: true, codes: 2 });
    expect(readiness.items.filter(({ state }) => state === "not-complete").map(({ id }) => id)).toEqual(["catalyst"]);
    expect(readiness.items.filter(({ state }) => state === "not-fitted").map(({ id }) => id)).toEqual([
      "heated-catalyst",
      "secondary-air",
      "filter",
      "recirculation",
    ]);
    expect(catalystComplete(readiness)).toBe(false);
    expect(catalystComplete(readinessOf([0, 7, 0x65, 0], 0x41))).toBe(true);
  });

  test("says nothing where bytes are missing or the engine is another kind", () => {
    expect(readinessOf([0, 7, 0x65], 0x01)).toBeNull();
    expect(readinessOf([0, 0x0f, 0x65, 0], 0x01)).toBeNull();
    expect(catalystComplete(null)).toBeNull();
  });
});

describe("values out of text", () => {
  // Mile 1.609344 km, degF by definition, psi and inHg by NIST SP 811.
  test.each([
    ["Engine speed: 2,000 rpm", "engineSpeed", 2000],
    ["RPM 2000", "engineSpeed", 2000],
    ["Coolant 181.4 °F", "coolant", 83],
    ["Vehicle speed 46.6 mph", "roadSpeed", 74.995],
    ["Load = 38 %", "load", 38],
    ["short trim bank 2: -3,1 %", "shortTrim2", -3.1],
    ["Short term fuel trim bank 1 4.7%", "shortTrim1", 4.7],
    ["MAP 20 inHg", "manifoldPressure", 67.72778],
    ["Mass air flow 1.5 lb/min", "airFlow", 11.33981],
    ["Distance since codes cleared 120 miles", "distanceSinceClear", 193.12128],
    ["Fuel trim, short, bank 1: 2.3", "shortTrim1", 2.3],
    ["Engine speed: 2 000 rpm", "engineSpeed", 2000],
    ["engine run time 00:12:30", "runTime", 750],
    ["Distance since codes cleared 12 300 km", "distanceSinceClear", 12300],
    // Labels of SAE J1979, from memory.
    ["LOAD_PCT 38", "load", 38],
    ["SHRTFT1 0.8", "shortTrim1", 0.8],
    ["LONG FT2 -2.3 %", "longTrim2", -2.3],
    ["CLR_DIST 812 km", "distanceSinceClear", 812],
  ] as const)("“%s”", (text, id, value) => {
    const { values, unread } = parametersInText(text);
    expect(unread).toEqual([]);
    expect(values[id]).toBeCloseTo(value, 3);
  });

  test("a whole sheet at once, with what is not understood named", () => {
    const { values, unread } = parametersInText(
      "Freeze frame\nFuel system 1: closed loop\nLoad 38 %\nWidget 12\nCoolant 5 kPa",
    );
    expect(values).toEqual({ fuelStatus1: 2, load: 38 });
    expect(unread.map(({ line }) => line)).toEqual([4, 5]);
  });
});

describe("values written as people do", () => {
  const told = (text: string) => parametersInText(text).values;
  const four = { engineSpeed: 2000, roadSpeed: 75, load: 38, coolant: 88 };

  test.each([
    "RPM 2000, speed 75 km/h, load 38%, ECT 88C",
    "2000 rpm, 75 km/h, 38 % load, 88 °C coolant",
    "2000rpm 75km/h load 38% coolant 88C",
    "RPM\t2000\nVSS\t75\nLOAD_PCT\t38\nECT\t88",
    "engine speed 2.000 1/min road speed 75 km/h calculated load 38 % coolant 88 °C",
    "Engine RPM;2000;rpm\nVehicle speed;75;km/h;Load;38;%\nCoolant temperature [°C] 88",
  ])("several on a line: %s", (text) => {
    expect(parametersInText(text)).toEqual({ values: four, code: null, unread: [] });
  });

  test("the loop in the middle of a line takes nothing else away", () =>
    expect(told("RPM 2000, loop closed, load 38%")).toEqual({ engineSpeed: 2000, load: 38, fuelStatus1: 2 }));

  // Greatest values of the standard's bytes: 255 - 40 °C, 100 %, 65535/4 rpm.
  test("what no car can tell, and a time that may be two, are said", () => {
    const { values, unread } = parametersInText("Coolant -273 C\nLoad 380 %\nRPM 99999\nrun time 12:30");
    expect(values).toEqual({});
    expect(unread.map(({ says }) => /cannot be|minutes or hours/.test(says))).toEqual([true, true, true, true]);
    expect(parametersInText("Coolant 215 C, load 100 %").unread).toEqual([]);
  });

  test("the bank may stand before the trim", () => expect(told("Bank 2 short trim 3 %")).toEqual({ shortTrim2: 3 }));

  test("the code that stored it is taken along", () => {
    const { code, unread } = parametersInText("DTC that caused it: P0420\nload 38 %");
    expect([code, unread]).toEqual(["P0420", []]);
  });

  test.each([
    ["coolant 90 C 2000 rpm", { coolant: 90, engineSpeed: 2000 }],
    ["ECT 83 C 1500 rpm 45 km/h", { coolant: 83, engineSpeed: 1500, roadSpeed: 45 }],
    ["Coolant: 83 C\t1200 rpm", { coolant: 83, engineSpeed: 1200 }],
    ["Coolant: 83 °C 1200 1/min", { coolant: 83, engineSpeed: 1200 }],
  ])("degrees Celsius ahead of a number are no code: %s", (text, values) => {
    expect(parametersInText(text)).toEqual({ values, code: null, unread: [] });
  });

  test("a code beside a value leaves it as it is, and hides nothing that was not understood", () => {
    expect(parametersInText("coolant 83 C P0420")).toEqual({ values: { coolant: 83 }, code: "P0420", unread: [] });
    expect(parametersInText("P0430 short trim bank 2 3 %").values).toEqual({ shortTrim2: 3 });
    const { code, unread } = parametersInText("P0420 coolant 83 kPa\nP0171 widget 12 x");
    expect([code, unread.map(({ line }) => line)]).toEqual(["P0420", [1, 2]]);
  });

  test.each(["DTC 1: P0420", "Freeze frame 0, P0420-00", "1. P0420 catalyst efficiency (bank 1)", "#2 P0420 sensor 2"])(
    "the number of a code, a bank or a sensor is no value: %s",
    (text) => expect(parametersInText(text)).toEqual({ values: {}, code: "P0420", unread: [] }),
  );

  test("a bank is no value of its trim", () => {
    const { values, unread } = parametersInText(
      "Short trim bank 1, load 38 %\nSTFT bank 1 2000 rpm\nSTFT bank 2 load 40 %",
    );
    expect(values).toEqual({ load: 38, engineSpeed: 2000 });
    expect(unread.map(({ line }) => line)).toEqual([1, 2, 3]);
  });

  test("without a unit a value is in the one chosen for showing it", () => {
    writeAs({ ...plainWriting, temperature: "degF", speed: "mph" });
    const { coolant, roadSpeed } = told("coolant 190, speed 46.6");
    writeAs(plainWriting);
    // (190 - 32) / 1.8, and 46.6 times 1.609344 (NIST SP 811, appendix B).
    expect(coolant).toBeCloseTo(87.78, 2);
    expect(roadSpeed).toBeCloseTo(74.995, 3);
  });
});

describe("a long line", () => {
  const told = "Short term fuel trim bank 1 1.2 % coolant 83 C speed 75 km/h ";

  test("is cut into all its values", () => {
    const whole = parametersInText(`${told.repeat(400)}load 38 %`);
    expect(whole).toEqual({
      values: { shortTrim1: 1.2, coolant: 83, roadSpeed: 75, load: 38 },
      code: null,
      unread: [],
    });
  });

  test("of blanks is as good as one blank", () => {
    const blanks = " ".repeat(20_000);
    expect(parametersInText(`load in row 3${blanks}is 38 %`).values).toEqual({ load: 38 });
  });

  test.each([
    ["of values", told],
    ["of words", "nothing of it is told "],
    ["of names without a value", "engine speed coolant "],
  ])("%s is looked at as often as it is long", (_, part) => {
    const looked = (times: number) => {
      let letters = 0;
      const count = (isIt: (text: string) => boolean) => (text: string) => {
        letters += text.length;
        return isIt(text);
      };
      piecesOf(
        part.repeat(times),
        count((text) => /[a-z].*\d \S+$/i.test(text)),
        count((text) => /^(short|coolant|speed)/i.test(text)),
      );
      return letters;
    };
    // Twice the length, twice the work; half of it more for what is done once.
    expect(looked(200)).toBeLessThan(2.5 * looked(100));
  });
});

describe("readiness in words", () => {
  const states = (text: string) =>
    Object.fromEntries(
      (readinessOf(withTold([], readinessInText(text).tests), 0x41)?.items ?? [])
        .filter(({ state }) => state !== "not-fitted")
        .map(({ id, state }) => [id, state]),
    );

  test("each test with what is said of it", () => {
    const text =
      "Catalyst monitor: incomplete\nMisfire: complete, EVAP not ready\nO2 sensor heater OK\nEGR: not supported";
    expect(states(text)).toEqual({
      misfire: "complete",
      catalyst: "not-complete",
      vapour: "not-complete",
      heater: "complete",
    });
  });

  test("no test named, nothing told", () => {
    const { tests, unread } = readinessInText("all good, closed loop");
    expect([tests.size, unread]).toEqual([0, []]);
  });

  // As a technician would read each line; no standard rules how people write.
  test.each([
    "Catalyst: never completed",
    "Catalyst test could not be completed",
    "Catalyst isn't ready",
    "Catalyst isn’t ready",
    "Catalyst: not yet complete",
    "Catalyst has not run to completion",
    "Catalyst complete: no",
    "Catalyst no longer ready",
    "Catalyst almost complete",
    "Catalyst not passed",
    "Catalyst: unfinished",
    "Catalyst inc",
    "Not ready: catalyst",
  ])("a denial is not complete: %s", (text) => expect(states(text)).toEqual({ catalyst: "not-complete" }));

  test.each([
    "Catalyst: complete",
    "Catalyst monitor has run and is complete",
    "Catalyst B1: ready",
    "1. Catalyst OK",
    "Catalyst (and/or converter) done",
  ])("complete: %s", (text) => expect(states(text)).toEqual({ catalyst: "complete" }));

  test.each([
    "catalyst: already present",
    "Catalyst: will be ready soon",
    "Catalyst ready when warm",
    "Catalyst failed",
    "Catalyst EVAP not ready",
    "Misfire: see above",
    "All ready",
    "all others complete",
  ])("what may be meant otherwise is told as unread: %s", (text) => {
    const { tests, unread } = readinessInText(`odometer\n${text}`);
    expect([tests.size, unread.map(({ line }) => line)]).toEqual([0, [2]]);
  });

  test("a temperature is none, and stays for what reads it", () => {
    const { tests, rest } = readinessInText("Cat temp 450 C ok, EGR: complete");
    expect([...tests]).toEqual([["recirculation", "complete"]]);
    expect(parametersInText(rest)).toEqual({ values: { catalystTemperature1: 450 }, code: null, unread: [] });
  });

  test.each([
    ["Not ready: Catalyst, EVAP", "catalyst not-complete, vapour not-complete"],
    [
      "Not ready: Catalyst and EVAP; ready: misfire, EGR",
      "catalyst not-complete, vapour not-complete, misfire complete, recirculation complete",
    ],
    [
      "Misfire, fuel system complete, catalyst, EVAP: not ready",
      "catalyst not-complete, vapour not-complete, fuel complete, misfire complete",
    ],
    ["Catalyst and EVAP not ready", "catalyst not-complete, vapour not-complete"],
    ["Catalyst, not ready", "catalyst not-complete"],
    ["Not ready; catalyst; EVAP ok", "catalyst not-complete, vapour complete"],
  ])("a state is of every test on its side: %s", (text, wanted) => {
    const { tests, unread } = readinessInText(text);
    const told = [...tests].map(([id, state]) => `${id} ${state}`);
    expect(told.sort()).toEqual(wanted.split(", ").sort());
    expect(unread).toEqual([]);
  });

  test("a test without a state is told as unread", () => {
    const { tests, unread } = readinessInText("Catalyst: incomplete, EVAP\nMisfire");
    expect([[...tests.keys()], unread.map(({ line }) => line)]).toEqual([["catalyst"], [1, 2]]);
  });
});

test("numbers are read as typed", () => {
  const cases = [
    ["2,000", 2000],
    ["2.000", 2000],
    ["0,125", 0.125],
    ["12,5", 12.5],
    ["1.234,5", 1234.5],
    ["1,234.5", 1234.5],
    ["−3.1", -3.1],
    ["1 234 567", 1234567],
    ["1'000", 1000],
    ["1,2,3", null],
    ["12a", null],
    ["", null],
  ] as const;
  for (const [text, value] of cases) expect([text, numberAsTyped(text)]).toEqual([text, value]);
});
