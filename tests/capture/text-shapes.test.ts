import { describe, expect, test } from "vitest";
import type { Capture } from "../../src/capture/model/capture.ts";
import { channel, open, problemOf, remarks, times, values } from "./open.ts";

describe("delimited text opens without being asked", () => {
  test("commas, points, units in brackets: even steps, scope rate, no doubt", async () => {
    const capture = await open("Time (s),Front O2 (V),Rear O2 (V)\n0.000,0.45,0.6\n0.001,0.46,0.61\n0.002,0.47,0.62\n");
    expect(channel(capture, "front-o2").series.time).toEqual({ kind: "even", start: 0, step: 0.001, count: 3 });
    expect(values(channel(capture, "rear-o2"))).toEqual([0.6, 0.61, 0.62]);
    expect(channel(capture, "front-o2").polled).toBe(false);
  });

  test("20 rows a second with a hole in them: as fast as without", async () => {
    const stamps = Array.from({ length: 100 }, (_, i) => (0.05 * (i < 60 ? i : i + 7)).toFixed(2));
    const capture = await open(`Time (s),Front O2 (V)\n${stamps.map((t, i) => `${t},0.${4 + (i % 2)}`).join("\n")}\n`);
    expect(channel(capture, "front-o2").polled).toBe(false);
    expect(remarks(capture)).not.toContain("polled");
  });

  test("semicolons, decimal commas, quoted header, byte-order mark, thousands marks, mV", async () => {
    const capture = await open(
      '\ufeff"Zeit [s]";"Lambdasonde 1 [mV]";"Motordrehzahl [U/min]"\r\n0,00;450;600\r\n0,25;460;1.200,5\r\n0,50;9;900\r\n',
    );
    expect(values(channel(capture, "front-o2"))).toEqual([0.45, 0.46, 0.009]);
    expect(values(channel(capture, "engine-speed"))).toEqual([600, 1200.5, 900]);
    expect(channel(capture, "front-o2").series.time).toMatchObject({ step: 0.25, doubt: { early: 0.25, late: 0 } });
    expect(channel(capture, "front-o2").polled).toBe(true);
  });

  test("lines of name, value and unit above names and units, in whatever order", async () => {
    const settings = ["Filter,none", "Pace of sampling,0.1,ms", "Kept values,4", "Gain,2.5,x"];
    for (const lines of [settings, settings.toReversed()]) {
      const capture = await open(
        `${lines.join("\n")}\n\nfront probe,rear probe,seconds passed\nmV,mV,s\n450,600,-2E-4\n460,610,-1E-4\n460,610,0\n470,610,1E-4\n`,
      );
      expect(capture.channels.map(({ name }) => name)).toEqual(["front probe", "rear probe"]);
      expect(channel(capture, "rear-o2").series.time).toEqual({ kind: "even", start: 0, step: 0.0001, count: 4 });
    }
  });

  test("the long form, each channel with stamps of its own", async () => {
    const capture = await open(
      "time;channel;value;unit\n0;RPM;800;rpm\n0,1;O2 B1S1;450;mV\n0,2;O2 B1S2;600;mV\n0,3;RPM;810;rpm\n0,4;O2 B1S1;550;mV\n0,5;O2 B1S2;610;mV\n",
    );
    expect(times(channel(capture, "rear-o2"))).toEqual([0.2, 0.5]);
    expect(values(channel(capture, "front-o2"))).toEqual([0.45, 0.55]);
    expect(channel(capture, "front-o2").polled).toBe(false);
  });

  test("the long form with the code each channel is asked for by", async () => {
    const row = (i: number) =>
      `${(i / 10).toFixed(2)},0114,Oxygen sensor B1S1,0.${4 + (i % 5)}\n${(i / 10 + 0.05).toFixed(2)},0115,Oxygen sensor B1S2,0.7\n`;
    const capture = await open(
      `time [s],pid,description,value\n${Array.from({ length: 20 }, (_, i) => row(i)).join("")}`,
    );
    expect(capture.channels.map(({ role }) => role)).toEqual(["front-o2", "rear-o2"]);
    expect(channel(capture, "rear-o2").series.time).toEqual({ kind: "even", start: 0.05, step: 0.1, count: 20 });
  });

  test("a clock that passes midnight, a text fuel status, a last line of words", async () => {
    const capture = await open(
      "Time\tFront O2\tFuel system status\n23:59:59.0\t0.1\tOL\n23:59:59.5\t0.2\tCL\n00:00:00.0\t0.3\tCL\n00:00:00.5\t0.3\tOL-Drive\nEnd of log\n",
    );
    expect(times(channel(capture, "front-o2"))).toEqual([0, 0.5, 1, 1.5]);
    expect(values(channel(capture, "fuel-status"))).toEqual([1, 2, 2, 4]);
    expect(channel(capture, "fuel-status").words).toEqual({ 1: "OL", 2: "CL", 4: "OL-Drive" });
    expect(remarks(capture)).toContain("lines that are no row of numbers were left out @line 6 x1");
  });

  test("stamps of whole seconds with several rows each are spread, and the doubt says so", async () => {
    const rows = [0, 0, 1, 1, 2, 2].map((second) => `2024-05-01,12:00:0${second},0.3`).join("\n");
    const capture = await open(`Date,Time,Front O2\n${rows}\n`);
    expect(times(channel(capture, "front-o2"))).toEqual([0, 0.5, 1, 1.5, 2, 2.5]);
    expect(channel(capture, "front-o2").series.time.doubt).toEqual({ early: 1.5, late: 1 });
    expect(capture.startedAt).toBe("2024-05-01T12:00:00.000");
  });
});

describe("awkward shapes that recorders write", () => {
  const rows = (count: number, row: (i: number) => string) =>
    Array.from({ length: count }, (_, i) => row(i)).join("\n");

  test("points in some columns and decimal commas in others", async () => {
    const capture = await open(
      `Zeit;Sonde 1 (V);Sonde 2 (V);Drehzahl (1/min)\n${rows(4, (i) => `0.${i};0,4${i};0,60${i};80${i}.5`)}\n`,
    );
    expect(values(channel(capture, "front-o2"))).toEqual([0.4, 0.41, 0.42, 0.43]);
    expect(values(channel(capture, "engine-speed"))).toEqual([800.5, 801.5, 802.5, 803.5]);
    expect(channel(capture, "rear-o2").series.time).toMatchObject({ kind: "even", step: 0.1 });
    expect(remarks(capture)).toContain("decimal comma in some columns");
  });

  test("a decimal mark that the user states holds for every column", async () => {
    const text = `t;a;b\n${rows(3, (i) => `${i};0.4${i};0,5${i}`)}\n`;
    const capture = await open(text, { decimalMark: "." });
    expect(capture.channels.map(({ name }) => name)).toEqual(["a"]);
  });

  test("names and units that stand again in the middle, even where more rows follow than went before", async () => {
    const head = "t,Upstream O2,Downstream O2\ns,mV,mV\n";
    const part = (from: number, count: number) => rows(count, (i) => `${from + i},${450 + i},600`);
    const capture = await open(`# recorder 3\n${head}${part(0, 30)}\n${head}${part(30, 90)}\n`);
    expect(values(channel(capture, "front-o2")).length).toBe(120);
    expect(remarks(capture)).toContain("the header stands again inside the file @line 34 x2");
  });

  test("a short table ahead of a long one: both are read", async () => {
    const capture = await open(
      `Time (s),Front O2 (V)\n${rows(25, (i) => `${i},0.4`)}\n\nTime (s),Rear O2 (V)\n${rows(200, (i) => `${i},0.6`)}\n`,
    );
    expect(values(channel(capture, "front-o2")).length).toBe(25);
    expect(values(channel(capture, "rear-o2")).length).toBe(200);
  });

  test.each([
    ["beside the names", "no,probe A,probe B,Sampling step,Trigger level\n,V,V,2.0e-03,0.5\n", ""],
    ["below names of their own", "no,probe A (V),probe B (V),Trigger level,Sampling step (ms)\n", ",0.5,2"],
    ["in pairs beside the first row", "no,probe A (V),probe B (V),,\n", ",Sampling step,2 ms"],
  ])("samples counted, settings that hold one value %s", async (_, head, beside) => {
    const blank = beside.replace(/[^,]/g, "");
    const capture = await open(`${head}${rows(40, (i) => `${i},0.4,0.6${i === 0 ? beside : blank}`)}\n`);
    expect(capture.channels.map(({ name, unit }) => [name, unit])).toEqual([
      ["probe A", "V"],
      ["probe B", "V"],
    ]);
    expect(capture.channels[0]!.series.time).toEqual({ kind: "even", start: 0, step: 0.002, count: 40 });
  });

  test("a rate that stands in every row is the rate, and no channel is lost", async () => {
    const capture = await open(`Sonde 1 (V);Messrate (Hz);Sonde 2 (V)\n${rows(40, (i) => `0,4${i};50;0,60`)}\n`);
    expect(channel(capture, "rear-o2").series.time).toMatchObject({ step: 0.02, count: 40 });
  });
});

describe("the edges of what recorders write", () => {
  const rows = (count: number, row: (i: number) => string) =>
    Array.from({ length: count }, (_, i) => row(i)).join("\n");

  test("switches are 0 and 1 with their words, and no quantity of that name", async () => {
    const capture = await open(
      `t;Front O2;Closed throttle;Brake\n${rows(4, (i) => `${i};0.4;${i < 2 ? "ja" : "nein"};OFF`)}\n`,
    );
    expect(capture.channels.slice(1).map((one) => [one.role, values(one), one.words])).toEqual([
      ["other", [1, 1, 0, 0], { 0: "nein", 1: "ja" }],
      ["other", [0, 0, 0, 0], { 0: "OFF" }],
    ]);
  });

  test("a number that is cut off at the end of the file is no sample", async () => {
    const text = `time,front o2,rear o2\n${rows(5, (i) => `${i}.0,0.45${i},0.60${i}`)}`;
    const whole = await open(text);
    expect(values(channel(whole, "rear-o2"))).toEqual([0.6, 0.601, 0.602, 0.603, 0.604]);
    const cut = await open(text.slice(0, -3));
    expect(values(channel(cut, "rear-o2"))).toEqual([0.6, 0.601, 0.602, 0.603]);
    expect(remarks(cut)).toContain("cut off and was left out @line 6 x1");
  });

  // SAE J1979: 16,383.75 1/min is the most that two bytes of a quarter turn tell.
  test.each([
    ["V", 1, "30.0,1800,0.45,45.3", [1800, 0.45, Number.NaN]],
    ["mV", 1000, "30.0,1800,450,45300", [1800, 0.45, Number.NaN]],
    ["", 1000, "30.0,1800,450,45300", [1800, 0.45, Number.NaN]],
    ["V", 1, "30.0,65535,1.275,1.275", [Number.NaN, Number.NaN, Number.NaN]],
    ["V", 1, "30.0,15000,0.99,0.01", [15_000, 0.99, 0.01]],
  ])(
    "a last row that was not written whole gives no value that no car tells (%s, times %d): %s",
    async (unit, times, last, want) => {
      const volts = (i: number, at: number) => (times * (at + 0.4 * Math.sin(i))).toFixed(times === 1 ? 3 : 0);
      const body = rows(300, (i) => `${(i / 10).toFixed(1)},${900 + (i % 50)},${volts(i, 0.45)},${volts(i / 9, 0.5)}`);
      const names = ["front o2", "rear o2"].map((name) => (unit === "" ? name : `${name} (${unit})`));
      const text = (end: string) => `time (s),engine rpm,${names.join(",")}\n${body}\n${end}\n`;
      const capture = await open(text(last));
      expect(capture.channels.map(({ series }) => series.samples.at(-1))).toEqual(want);
      expect(/not written whole/.test(remarks(capture))).toBe(want.some(Number.isNaN));
      // Where another row holds the like, it was measured: a lead may carry it.
      const twice = await open(text(`${last}\n${last.replace("30.0", "30.1")}`));
      expect(/not written whole/.test(remarks(twice))).toBe(false);
    },
  );

  test("a line drawn below the names, and bars around them", async () => {
    const capture = await open(`| Time [s] | Front O2 [mV] |\n|---|---|\n${rows(4, (i) => `| ${i} | 45${i} |`)}\n`);
    expect(values(channel(capture, "front-o2"))).toEqual([0.45, 0.451, 0.452, 0.453]);
    expect(capture.remarks).toEqual([{ text: expect.stringContaining("polled log") }]);
  });

  test("tabs with empty cells between, and a blank between date and clock", async () => {
    const cells = (i: number) => (i % 2 === 0 ? `0,1${i % 10}\t` : `\t0,7${i % 10}`);
    const at = (i: number) => `03/14/2026 10:${i < 60 ? "00" : "03"}:${String(i % 60).padStart(2, "0")}`;
    const capture = await open(
      `Note of 3 words\n\nOra\tSonda a monte [V]\tSonda a valle [V]\n${rows(120, (i) => `${at(i)}\t${cells(i)}`)}\n`,
    );
    expect(values(channel(capture, "front-o2")).every((value) => value < 0.2)).toBe(true);
    expect(values(channel(capture, "rear-o2")).every((value) => value > 0.6)).toBe(true);
    // 10:00:59 to 10:03:00; the two channels were asked in turn, and the hole is one.
    expect(remarks(capture)).toContain("holes, in which nothing was recorded: 59 … 180\u00a0s @undefined x1");
  });

  test("names of several words over columns set apart by blanks", async () => {
    const capture = await open(
      `Time     Front O2    Rear O2\n(s)      (V)         (V)\n${rows(4, (i) => `${i}.5      0.4${i}        0.6${i}`)}\n`,
    );
    expect(capture.channels.map(({ name, unit }) => [name, unit])).toEqual([
      ["Front O2", "V"],
      ["Rear O2", "V"],
    ]);
  });

  test("a hole in the recording is said, with its ends", async () => {
    const stamps = Array.from({ length: 60 }, (_, i) => (i < 30 ? i / 10 : i / 10 + 5));
    const capture = await open(`Time (s),Front O2 (V)\n${stamps.map((t) => `${t.toFixed(1)},0.4`).join("\n")}\n`);
    expect(remarks(capture)).toContain("holes, in which nothing was recorded: 2.9 … 8.0\u00a0s @undefined x1");
  });
});

describe("what is said of a recording", () => {
  /** A front sensor that switches once a second between 0.1 and 0.8 V, at 50 samples a second. */
  const swing = (i: number) => (0.45 + 0.35 * Math.sin((2 * Math.PI * i) / 50)).toFixed(3);
  const table = (header: string, row: (i: number) => string, count = 300) =>
    `${header}\n${Array.from({ length: count }, (_, i) => `${(i / 50).toFixed(2)},${row(i)}`).join("\n")}\n`;

  test("channels that move like oxygen sensors are named, not guessed", async () => {
    const capture = await open(
      table("Time (s),CH1 (V),CH2 (V),CH3 (V)", (i) => `${swing(i)},${0.6 + (i % 100) / 500},${i % 13}`),
    );
    expect(capture.channels.map(({ role }) => role)).toEqual(["other", "other", "other"]);
    expect(remarks(capture)).toContain("CH1 and CH2 move like them");
    const told = await open(
      table("Time (s),CH1 (V),CH2 (V)", (i) => `${swing(i)},0.6`),
      { roles: { CH1: "front-o2" } },
    );
    expect(remarks(told)).not.toContain("move like");
  });

  test("units that nobody wrote are one remark", async () => {
    const capture = await open(table("Time (s),b1s1,b1s2,rpm", (i) => `${swing(i)},0.6,800`));
    const units = capture.remarks.filter(({ text }) => text.includes("no unit"));
    expect(units.map(({ text }) => text)).toEqual([
      "no unit is written; the usual one was taken: V (b1s1, b1s2); 1/min (rpm)",
    ]);
  });

  test("a sensor whose log repeats each value four times has a quarter of the samples", async () => {
    const capture = await open(
      table("Time (s),O2 B1S1 (V),O2 B1S2 (V)", (i) => `${swing(i - (i % 4))},${swing(i * 0.3)}`),
    );
    const front = channel(capture, "front-o2");
    expect(front.series.samples.length).toBe(76); // 300 / 4, and the last row
    expect(times(front).slice(0, 3)).toEqual([0, 0.08, 0.16]);
    expect(values(channel(capture, "rear-o2")).length).toBe(300);
    expect(remarks(capture)).toContain("not counted as samples: O2 B1S1");
  });

  test("a square wave of two levels keeps every sample", async () => {
    const capture = await open(table("Time (s),O2 B1S1 (V)", (i) => (i % 50 < 25 ? "0.1" : "0.8")));
    expect(values(channel(capture, "front-o2")).length).toBe(300);
  });

  test("a number that no sensor gives, again and again, is called a mark and taken as missing", async () => {
    const text = table("Time (s),Front O2 (V)", (i) => (i % 60 === 7 ? "-99.99" : swing(i)));
    const capture = await open(text);
    expect(remarks(capture)).toContain("-99.99\u00a0V cannot come from the sensor");
    expect(values(channel(capture, "front-o2")).filter(Number.isNaN).length).toBe(5);
    // Said by the user, there is nothing to remark on.
    expect(remarks(await open(text, { missing: -99.99 }))).not.toContain("--missing");
  });

  test("a voltage that never changes is no mark, but for the one that a byte without a value reads as", async () => {
    const still = (volts: string) => table("Time (s),O2 B1S1 (V),O2 B1S2 (V)", (i) => `${swing(i)},${volts}`);
    const supply = await open(still("4.6"), { roles: { "O2 B1S2": "rear-o2" } });
    expect(values(channel(supply, "rear-o2")).every((value) => value === 4.6)).toBe(true);
    expect(remarks(supply)).not.toContain("mark");
    // SAE J1979, parameters $14 to $1B: a byte of 0.005 V a step, 255 where there is nothing.
    expect(remarks(await open(still("1.275")))).toContain("holds no value: O2 B1S2");
  });
});

describe("delimited text that only the user can settle", () => {
  test("no time and no rate", async () => {
    const problem = await problemOf("Front,Rear\n0.1,0.2\n0.2,0.3\n0.3,0.3\n");
    expect(problem.code).toBe("no-time");
    expect(problem.remedy).toContain("--rate");
    const capture = await open("Front,Rear\n0.1,0.2\n0.2,0.3\n0.3,0.3\n", { rate: 1000 });
    expect(channel(capture, "rear-o2").series.time).toEqual({ kind: "even", start: 0, step: 0.001, count: 3 });
  });

  test("comma as separator and decimal mark", async () => {
    const text = "Zeit,Vorne,Hinten\n0,000,0,450,0,600\n0,100,0,460,0,600\n0,200,0,470,0,600\n";
    expect((await problemOf(text)).code).toBe("unclear");
    const capture = await open(text, { delimiter: ",", decimalMark: "," });
    expect(values(channel(capture, "front-o2"))).toEqual([0.45, 0.46, 0.47]);
  });
});

describe("names with a unit behind them", () => {
  test.each([
    ["MAF g/s", "air-flow", "g/s"],
    ["MAF_g/s", "air-flow", "g/s"],
    ["Air flow, kg/h", "air-flow", "g/s"],
    ["Vehicle speed km/h", "road-speed", "km/h"],
    ["Speed in km/h", "road-speed", "km/h"],
    ["Drehzahl 1/min", "engine-speed", "1/min"],
    ["Luftmasse/(kg/h)", "air-flow", "g/s"],
  ] as const)("%s keeps both halves of its unit, and is no time", async (header, role, unit) => {
    const capture = await open(`Time (s)|${header}\n0.0|10\n0.1|11\n0.2|12\n`);
    expect(channel(capture, role)).toMatchObject({ unit });
    expect(times(channel(capture, role))).toEqual([0, 0.1, 0.2]);
  });

  test("a unit that is not known stays whole", async () => {
    const capture = await open("t/s,Fuel l/h\n0.0,10\n0.1,11\n0.2,12\n");
    expect(capture.channels.map(({ name, unit }) => [name, unit])).toEqual([["Fuel", "l/h"]]);
  });
});

describe("channels named for lambda without a unit", () => {
  const file = (front: (i: number) => number, rear: (i: number) => number) => {
    const body = Array.from(
      { length: 400 },
      (_, i) => `${(i / 25).toFixed(2)},${front(i).toFixed(3)},${rear(i).toFixed(3)}`,
    );
    return open(`Time (s),Sonda lambda 1,Sonda lambda 2\n${body.join("\n")}\n`);
  };
  const rolesIn = (capture: Capture) => capture.channels.map(({ role, unit }) => [role, unit]);

  test.each([
    ["volts", 1],
    ["millivolts", 1000],
  ])("are the switching sensors where they hold %s", async (_, times) => {
    const capture = await file(
      (i) => times * (0.45 + 0.4 * Math.sin(i / 4)),
      () => times * 0.7,
    );
    expect(rolesIn(capture)).toEqual([
      ["front-o2", "V"],
      ["rear-o2", "V"],
    ]);
    expect(values(channel(capture, "rear-o2"))[0]).toBeCloseTo(0.7, 6);
  });

  test("are mixtures where they can be", async () => {
    const capture = await file(
      (i) => 1 + 0.03 * Math.sin(i / 4),
      () => 1.001,
    );
    expect(rolesIn(capture)).toEqual([
      ["front-lambda", "1"],
      ["other", ""],
    ]);
  });
});

describe("times as laboratories write them", () => {
  const rows = (count: number, row: (i: number) => string) =>
    Array.from({ length: count }, (_, i) => row(i)).join("\n");

  test("a clock with points beside a date, decimal commas, empty columns and rows at the end", async () => {
    // The shape of an open air-quality dataset of the UCI Machine Learning Repository, from memory.
    const body = rows(
      30,
      (i) => `25/03/2004;${12 + Math.floor(i / 60)}.${String(i).padStart(2, "0")}.00;2,6;13,${i % 10};;`,
    );
    const capture = await open(`Date;Time;Sensor;T;;\n${body}\n;;;;;\n;;;;;\n`);
    expect(capture.startedAt).toBe("2004-03-25T12:00:00.000");
    expect(capture.channels.map(({ name }) => name)).toEqual(["Sensor", "T"]);
    expect(times(capture.channels[0]!).slice(0, 3)).toEqual([0, 60, 120]);
  });

  test("a clock with points that could be a date: it moves by seconds", async () => {
    const capture = await open(`Zeit;Vorkat V\n${rows(20, (i) => `10.11.${10 + i};0,${4 + (i % 3)}`)}\n`);
    expect(times(capture.channels[0]!).slice(0, 3)).toEqual([0, 1, 2]);
    expect(capture.startedAt).toBeNull();
  });

  test("a date with points stays a date beside a clock", async () => {
    const capture = await open(`Datum;Zeit;Vorkat V\n${rows(20, (i) => `10.11.12;08:00:${10 + i};0,4`)}\n`);
    expect(capture.startedAt).toBe("2012-11-10T08:00:10.000");
  });

  test("date and clock with points in one cell", async () => {
    const capture = await open(`Zeit;Vorkat V\n${rows(20, (i) => `10.11.2012 08.00.${10 + i};0,4`)}\n`);
    expect(capture.startedAt).toBe("2012-11-10T08:00:10.000");
    expect(times(capture.channels[0]!).slice(0, 3)).toEqual([0, 1, 2]);
  });

  test("year, month, day, hour and minute in columns of their own, under two rows of comment", async () => {
    // The shape of the standard meteorological files of a public buoy network, from memory.
    const body = rows(
      50,
      (i) =>
        `2014 09 ${11 + Math.floor(i / 24)} ${String(i % 24).padStart(2, "0")} 50 ${120 + (i % 7)}  5.${i % 10} MM`,
    );
    const capture = await open(`#YY  MM DD hh mm WDIR WSPD GST\n#yr  mo dy hr mn degT m/s m/s\n${body}\n`);
    expect(capture.startedAt).toBe("2014-09-11T00:50:00.000");
    expect(capture.channels.map(({ name }) => name)).toEqual(["WDIR degT", "WSPD"]);
    expect(times(capture.channels[0]!).slice(0, 3)).toEqual([0, 3600, 7200]);
    expect(remarks(capture)).toContain("time put together from");
  });

  test("hours, minutes and seconds without a date pass midnight", async () => {
    const at = (i: number) => [
      Math.floor((86_390 + i) / 3600) % 24,
      Math.floor((86_390 + i) / 60) % 60,
      (86_390 + i) % 60,
    ];
    const capture = await open(`Hour,Minute,Second,Front O2 (V)\n${rows(30, (i) => `${at(i).join(",")},0.4`)}\n`);
    expect(times(capture.channels[0]!)).toEqual(Array.from({ length: 30 }, (_, i) => i));
  });

  test("several columns stay one time when the finest of them is named for it", async () => {
    const text = `Minute,Second,Front O2 (V)\n${rows(90, (i) => `${Math.floor(i / 60)},${i % 60},0.4`)}\n`;
    const named = await open(text, { timeColumn: "Second" });
    expect(times(named.channels[0]!)).toEqual(Array.from({ length: 90 }, (_, i) => i));
  });

  test("seconds of the epoch and nanoseconds beside them are one time", async () => {
    const body = rows(300, (i) => `${1_700_000_000 + Math.floor(i / 100)},${(i % 100) * 10_000_000},0.45`);
    const capture = await open(`sec,nanosec,front_v\n${body}\n`);
    expect(capture.channels.map(({ name }) => name)).toEqual(["front_v"]);
    expect(capture.channels[0]!.series.time).toEqual({ kind: "even", start: 0, step: 0.01, count: 300 });
    expect(capture.startedAt).toBe("2023-11-14T22:13:20.000Z");
  });

  test("minutes with the whole time in seconds beside them are two times", async () => {
    const body = rows(200, (i) => `${Math.floor(i / 60)},${i},0.4${i % 5}`);
    const capture = await open(`elapsed minutes,elapsed seconds,Front O2 (V)\n${body}\n`);
    expect(channel(capture, "front-o2").series.time).toMatchObject({ kind: "even", step: 1, count: 200 });
  });

  test("seconds with the same time in milliseconds beside them are two times, not parts of one", async () => {
    const capture = await open(`Time s,Time ms,Front O2 (V)\n${rows(30, (i) => `${i},${i * 1000},0.4`)}\n`);
    expect(times(channel(capture, "front-o2")).slice(0, 3)).toEqual([0, 1, 2]);
  });

  const ms = (i: number) => String((i * 40) % 1000).padStart(3, "0");
  const s2 = (i: number) => String(Math.floor((i * 40) / 1000) % 60).padStart(2, "0");
  test.each([
    ["ISO 8601 with a decimal comma, which the delimiter cuts", (i: number) => `2026-11-26 10:00:${s2(i)},${ms(i)}`],
    ["ISO 8601's basic format", (i: number) => `20261126T1000${s2(i)}.${ms(i)}`],
    ["the same as one number", (i: number) => `202611261000${s2(i)}.${ms(i)}`],
  ])("%s", async (_, at) => {
    const capture = await open(`time,front_o2,rear_o2\n${rows(900, (i) => `${at(i)},0.4${i % 9},0.7`)}\n`);
    expect(capture.startedAt).toBe("2026-11-26T10:00:00.000");
    expect(channel(capture, "front-o2").series.time).toEqual({ kind: "even", start: 0, step: 0.04, count: 900 });
    expect(values(channel(capture, "rear-o2")).every((volts) => volts === 0.7)).toBe(true);
  });

  test("a date of eight digits beside a clock of six", async () => {
    const clock = (i: number) => `10${String(Math.floor(i / 60)).padStart(2, "0")}${String(i % 60).padStart(2, "0")}`;
    const capture = await open(`date;time;front_o2\n${rows(200, (i) => `20261126;${clock(i)};0.4${i % 9}`)}\n`);
    expect(capture.startedAt).toBe("2026-11-26T10:00:00.000");
    expect(capture.channels.map(({ name }) => name)).toEqual(["front_o2"]);
    expect(channel(capture, "front-o2").series.time).toMatchObject({ kind: "even", step: 1 });
  });

  test("durations with their days in front", async () => {
    // As the general-purpose library pandas writes a timedelta; from its output.
    const at = (i: number) => (i < 10 ? `0 days 23:59:${50 + i}.500000` : `1 days 00:00:${i}.500000`);
    const body = rows(20, (i) => `${at(i)},0.4`).replaceAll("00:00:1", "00:00:0");
    const capture = await open(`t,Front O2 (V)\n${body}\n`);
    expect(times(capture.channels[0]!)).toEqual(Array.from({ length: 20 }, (_, i) => i));
  });

  test("names and clocks between apostrophes", async () => {
    // The shape of a text export of an open archive of physiological signals, from memory.
    const body = rows(100, (i) => `'0:${(i / 100).toFixed(3).padStart(6, "0")}',-0.1${i % 10}`);
    const capture = await open(`'Elapsed time','MLII'\n'mm:ss.mmm','mV'\n${body}\n`);
    expect(capture.channels.map(({ name, fileUnit }) => [name, fileUnit])).toEqual([["MLII", "mV"]]);
    expect(capture.channels[0]!.series.time).toEqual({ kind: "even", start: 0, step: 0.01, count: 100 });
  });
});
