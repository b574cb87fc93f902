import { describe, expect, test } from "vitest";
import { composeSheet, firstEdits, oxygenName } from "../../src/app/exhibits/compose.ts";
import { type EverydayNames, everydayNames } from "../../src/app/exhibits/everyday.ts";
import type { ExhibitDraft } from "../../src/app/exhibits/types.ts";
import { type BandLayer, bandsOf, linesOf } from "../../src/drawing/layer.ts";
import type { LiftOff } from "../../src/exhaust/terms/analysis.ts";
import type { ExhibitRecord } from "../../src/job/record/job.ts";
import { type ExhibitEdits, editsIn, editsText } from "../../src/report/exhibit/edits.ts";
import { exhibitSvg } from "../../src/report/exhibit/exhibit-svg.ts";
import { smallPictureIn } from "../../src/report/exhibit/small-picture.ts";
import { measured } from "../../src/signal/numbers/reading.ts";
import { plainWriting, writeAs } from "../../src/signal/written/writing.ts";
import { draft, record } from "./exhibit-draft.ts";

const now = "2026-11-12T14:00";
const edits = firstEdits(draft, "A4", "Workshop");
const compose = (given: ExhibitDraft = draft, change: Partial<ExhibitEdits> = {}) =>
  composeSheet(given, { ...edits, ...change }, { now });

describe("the title block", () => {
  test("says from which file, how fast, when, and under which conditions", () => {
    expect(compose().title).toMatchObject({
      job: "Demo job 7",
      vehicle: "hatchback 1.6, 142300 km",
      recording: "lift-off-scope.csv",
      sha256: record.sha256,
      sampleRate: "2000 per second",
      recordedAt: "12 Nov 2026, 10:41",
      conditions: "4600\u00a0rpm, air 11.2\u00a0g/s, coolant 91\u00a0°C",
      drawnBy: "Workshop",
      drawnAt: "12 Nov 2026, 14:00",
    });
  });

  test("says that a condition was not recorded rather than a number", () => {
    const conditions = { engineSpeed: null, airFlow: null, coolant: null };
    expect(compose({ ...draft, conditions }).title.conditions).toBe("not recorded");
    expect(compose({ ...draft, summary: { ...draft.summary, startedAt: null } }).title.recordedAt).toBe(
      "not stated in the file",
    );
  });

  test("gives every rate that is shown, and says which was polled", () => {
    const polled = draft.summary.channels.map((channel, i) =>
      i < 2 ? channel : { ...channel, polled: true, rate: { ...channel.rate, value: 3.3027 } },
    );
    const summary = { ...draft.summary, channels: polled };
    expect(compose({ ...draft, summary }).title.sampleRate).toBe("2000 per second; 3.3 per second, polled");
  });

  test("keeps plate, VIN and customer out of the picture, each until it is ticked", () => {
    const { plate, vin, customer } = draft.job.vehicle;
    const draw = (ticks: Partial<ExhibitEdits["ticks"]>) => {
      const all = { ...edits, ticks: { ...edits.ticks, ...ticks } };
      return exhibitSvg(composeSheet(draft, all, { now }), { metadata: editsText(all) });
    };
    const shown = (svg: string) => [plate, vin, customer].map((text) => svg.includes(text));
    expect(shown(draw({}))).toEqual([false, false, false]);
    expect(shown(draw({ plate: true }))).toEqual([true, false, false]);
    expect(shown(draw({ vin: true }))).toEqual([false, true, false]);
    expect(shown(draw({ customer: true }))).toEqual([false, false, true]);
  });
});

describe("the oxygen that passed", () => {
  test("names what multiplies to grams, in g/s beside the unit chosen", () => {
    expect(oxygenName(9.7213)).toBe("oxygen passed: delay × 9.72\u00a0g/s air × 0.2314");
    writeAs({ ...plainWriting, airFlow: "lb/min", decimal: "," });
    try {
      // 1 lb = 453.59237 g (NIST SP 811): 9.7213 g/s are 1.2859 lb/min.
      expect(oxygenName(9.7213)).toBe("oxygen passed: delay × 1,29\u00a0lb/min air (9,72\u00a0g/s) × 0,2314");
    } finally {
      writeAs(plainWriting);
    }
  });
});

describe("the settings in force", () => {
  const withChannels = (channels: CaptureChannels): ExhibitDraft => ({
    ...draft,
    record: { ...record, bench: { ...record.bench, channels } },
  });
  type CaptureChannels = ExhibitDraft["record"]["bench"]["channels"];
  const settings = (given: ExhibitDraft) => compose(given).title.settings.join(" ");

  test("say so when nothing was changed", () => {
    expect(settings(draft)).toBe("All channels as recorded. Scales fitted to what the sheet shows. No filter.");
  });

  test("state gain, offset and inversion, and only of channels that are shown", () => {
    const said = settings(withChannels({ c1: { gain: -10, offset: 0.45 }, c9: { gain: 3, offset: 0 } }));
    expect(said).toContain("“Sensor 1” by hand: shown = recorded × −10 + 0.45\u00a0V (inverted).");
    expect(said).not.toContain("× 3");
    expect(said).not.toContain("All channels as recorded");
  });

  test("state what a channel is seen through, beside that nothing was corrected", () => {
    const said = settings(withChannels({ c1: { gain: 1, offset: 0, filter: { kind: "low-pass", cutoff: 10 } } }));
    expect(said).toMatch(/^No channel corrected[.].* Drawn through a filter.*“Sensor 1”: low-pass 10\u00a0Hz[.]/);
    expect(said).not.toContain("No filter");
  });

  test("state role, bank and unit given by hand", () => {
    const said = settings(withChannels({ c2: { gain: 1, offset: 0, role: "rear-o2", bank: 2, unit: "V" } }));
    expect(said).toContain("“Sensor 2” by hand: taken for: rear oxygen sensor, bank 2, unit stated as V.");
  });

  test("state what was corrected of companions and references that are drawn, and how their files were read", () => {
    const take = { ...draft.summary.take, captureId: "b", bank: 1 as const };
    const [front, rear] = draft.summary.channels;
    const said = settings({
      ...draft,
      record: { ...record, choices: { units: { "Sensor 1": "mV" }, roles: { "Sensor 2": "rear-o2" } } },
      beside: [
        {
          name: "same-run.csv",
          take: {
            ...take,
            choices: { rate: 50 },
            corrections: { c1: { gain: 10, offset: 0 }, c2: { gain: 3, offset: 0 } },
          },
          channels: [front!],
        },
        {
          name: "Hatchback, new",
          take: { ...take, choices: {}, corrections: { c2: { gain: -1, offset: 0.9, role: "front-o2", bank: 2 } } },
          channels: [front!, rear!],
          edits: { liftOffEdits: [{ kind: "add", id: "h", at: 3 }], stretchEdits: [{ from: 1, to: 2, kind: "idle" }] },
        },
      ],
    });
    for (const sentence of [
      "“Sensor 1” by hand: read in mV.",
      "“Sensor 2” by hand: read as: rear oxygen sensor.",
      "“Sensor 1” of same-run.csv by hand: shown = recorded × 10.",
      "“Sensor 2” of Hatchback, new by hand: shown = recorded × −1 + 0.9\u00a0V (inverted), taken for: front oxygen sensor, bank 2.",
      "same-run.csv: rate stated by hand: 50 per second.",
      "Hatchback, new: lift-offs by hand: 1 added.",
      "Hatchback, new: stretches by hand: 1 put right.",
    ])
      expect(said).toContain(sentence);
    expect(said).not.toContain("× 3");
    expect(said).not.toContain("All channels as recorded");
  });

  test("state a held scale, a rate given by hand, edited lift-offs, warnings and what the app adds", () => {
    const bench = { ...record.bench, liftOffEdits: [{ kind: "reject", id: "2", because: "braked" } as const] };
    const said = settings({
      ...draft,
      lanes: draft.lanes.map((lane, i) => (i === 0 ? { ...lane, scale: [0, 1.2] } : lane)),
      record: { ...record, choices: { rate: 500, rowsAreSimultaneous: true }, bench },
      summary: { ...draft.summary, warnings: [{ text: "The front looks clipped at 0.9 V" }] },
      statements: ["Air flow taken as known to 5 %."],
    });
    for (const sentence of [
      "Scales held: Oxygen sensors 0 … 1.2.",
      "Other scales fitted.",
      "Rate stated by hand: 500 per second.",
      "All values of a row taken as simultaneous.",
      "Lift-offs by hand: 1 left out.",
      "Warning: The front looks clipped at 0.9 V.",
      "Air flow taken as known to 5 %.",
    ])
      expect(said).toContain(sentence);
  });
});

describe("sheets and revisions", () => {
  const made = (id: string, revision: number, revises?: string): ExhibitRecord => ({
    ...{ id, captureId: "a", revision, headline: id, madeAt: now, paper: "A4", svg: "s", png: "p" },
    ...(revises === undefined ? {} : { revises }),
  });
  const exhibits = [made("one", 1), made("two", 1), made("one-b", 2, "one"), made("one-c", 3, "one-b")];
  const given = { ...draft, job: { ...draft.job, exhibits } };

  test("a new exhibit is the next sheet", () => {
    expect(composeSheet(given, edits, { now }).title).toMatchObject({ sheet: 3, sheets: 3, revision: 1 });
  });

  test("a revision keeps its sheet, whichever revision it starts from", () => {
    const want = { sheet: 1, sheets: 2, revision: 4 };
    expect(composeSheet(given, edits, { now, revises: exhibits[3] }).title).toMatchObject(want);
    expect(composeSheet(given, edits, { now, revises: exhibits[0] }).title).toMatchObject(want);
  });
});

describe("the lanes", () => {
  test("hold the whole line between round ends when they are fitted", () => {
    const [sensors, throttle] = compose().lanes;
    const [low, high] = sensors!.scale;
    const drawn = linesOf(sensors!).flatMap(({ values }) => [...values]);
    expect(low).toBeLessThanOrEqual(Math.min(...drawn));
    expect(high).toBeGreaterThanOrEqual(Math.max(...drawn));
    expect(throttle!.scale[1]).toBeLessThan(200);
  });

  test("leave out a trace that no window came for", () => {
    const lanes = compose({ ...draft, windows: draft.windows.slice(1) }).lanes;
    expect(linesOf(lanes[0]!).map(({ channelId }) => channelId)).toEqual(["c2"]);
  });
});

describe("where a sound catalyst would have stayed", () => {
  const band: BandLayer = {
    ...{ form: "band", source: "healthy", label: "Sound catalyst", look: "other", fill: "grey" },
    ...{ times: Float64Array.of(25, 37), low: Float64Array.of(0.5, 0.5), high: Float64Array.of(0.8, 0.8) },
  };
  const offered = (isShown: boolean): ExhibitDraft => ({
    ...draft,
    lanes: draft.lanes.map((lane, i) => (i === 0 ? { ...lane, layers: [...lane.layers, band] } : lane)),
    sound: { says: "Grey: a sound one.", isShown },
  });
  const drawn = (given: ExhibitDraft, change: object = {}) => {
    const made = composeSheet(given, { ...firstEdits(given, "A4", ""), ...change }, { now });
    return [bandsOf(made.lanes[0]!).length, made.title.settings.includes("Grey: a sound one.")];
  };

  test("is on the sheet, and stated, as the bench shows it, and where it is ticked", () => {
    expect(drawn(offered(true))).toEqual([1, true]);
    expect(drawn(offered(false))).toEqual([0, false]);
    expect(drawn(offered(false), { sound: true })).toEqual([1, true]);
    expect(drawn(offered(true), { sound: false })).toEqual([0, false]);
  });

  test("the customer's picture holds it wherever it is known, whatever the sheet shows", () => {
    const made = composeSheet(offered(false), firstEdits(offered(false), "A4", ""), { now });
    expect([made.lanes, made.small!.lanes].map((lanes) => bandsOf(lanes[0]!).length)).toEqual([0, 1]);
  });

  test("is grey in any print, with its key, and hatched by nothing", () => {
    const svg = exhibitSvg(composeSheet(offered(true), firstEdits(offered(true), "A4", ""), { now }));
    const fills = [...svg.matchAll(/fill="(#[0-9a-f]{6})"/g)].map(([, fill]) => fill!);
    const isGrey = (fill: string) =>
      Math.abs(Number.parseInt(fill.slice(1, 3), 16) - Number.parseInt(fill.slice(5), 16)) < 8;
    const light = fills.filter(
      (fill) =>
        isGrey(fill) && Number.parseInt(fill.slice(1, 3), 16) < 224 && Number.parseInt(fill.slice(1, 3), 16) > 160,
    );
    expect(light.length).toBeGreaterThanOrEqual(2);
    expect(svg).toContain(">Sound catalyst<");
    expect(svg).not.toContain("<pattern");
  });
});

describe("what is kept in the picture for a revision", () => {
  test("comes back as it was, whatever was typed", () => {
    const typed: ExhibitEdits = {
      ...edits,
      headline: `</metadata> & "quotes" 'too' <b> &amp; ü`,
      notes: [{ id: "n", laneId: "sensors", at: { time: 30, level: 0.5 }, text: "a < b", side: "below-left" }],
      shade: { span: { from: 28, to: 31 }, label: "rich" },
    };
    expect(editsIn(exhibitSvg(compose(draft, typed), { metadata: editsText(typed) }))).toEqual({
      tracewright: 1,
      ...typed,
    });
  });

  test("is refused when it is not ours, damaged, or out of shape", () => {
    const around = (text: string) => `<svg><metadata>${text}</metadata></svg>`;
    for (const text of ["", "{", "null", "[]", '{"tracewright":1}', '{"tracewright":2}']) {
      expect(editsIn(around(text))).toBeNull();
    }
    const broken = editsText({ ...edits, view: { from: 3, to: 1 } });
    expect(editsIn(around(broken.replaceAll('"', "&quot;")))).toBeNull();
    expect(editsIn("<svg/>")).toBeNull();
  });
});

describe("lift-offs enlarged beside a long view", () => {
  const lane = draft.lanes[0]!;
  const liftOff = {
    delay: measured(0.0629, [0.0624, 0.0634], "s"),
    storedOxygen: measured(0.1416, [0.127, 0.156], "g"),
    airFlow: 9.724,
  } as LiftOff;
  const detail = {
    title: "lift-off 1",
    view: { from: 30, to: 35 },
    lane,
    windows: draft.windows,
    dimensions: [],
    liftOff,
  };
  const long = { ...draft, details: [detail] };

  test("have a letter, the scale of their lane, and readings from which the grams can be multiplied", () => {
    const { details, lanes, readings } = compose(long);
    expect(details).toMatchObject([{ letter: "A", lane: { title: "A: lift-off 1", scale: lanes[0]!.scale } }]);
    const { name, reading } = readings[1]!;
    const [flow, share] = [...name.matchAll(/[\d.]+/g)].map(Number) as [number, number];
    // Mass fraction of oxygen in dry air, as the oxygen that passed is defined.
    expect(share).toBe(0.2314);
    expect(0.0629 * flow * share).toBeCloseTo(reading.value!, 3);
  });

  test("are left out where the user leaves them out, in a revision as well", () => {
    const without = { ...edits, details: false };
    expect(compose(long, without).details).toBeUndefined();
    expect(editsIn(exhibitSvg(compose(long, without), { metadata: editsText(without) }))).toMatchObject(without);
  });
});

describe("a comparison on the customer's picture", () => {
  const [own, ...more] = draft.lanes;
  const theirs = linesOf(own!).map((line) => ({
    ...line,
    ...{ source: "reference", label: "Rear: other.csv", of: "other.csv", stroke: "dashed" as const },
  }));
  const delay = {
    ...draft.dimensions[0]!,
    id: "suspect-l1",
    whose: "suspect",
    label: "suspect, front to rear",
  } as const;
  const compared = (everyday: EverydayNames): ExhibitDraft => ({
    ...draft,
    lanes: [own!, { ...own!, id: "reference a", title: "Reference", layers: theirs }, ...more],
    dimensions: [delay, { ...delay, id: "reference-l1", whose: "reference", label: "reference, front to rear" }],
    everyday,
  });
  const words = (everyday: EverydayNames, labels = {}) => {
    const given = compared(everyday);
    const svg = exhibitSvg(composeSheet(given, { ...firstEdits(given, "A4", ""), labels }, { now }), {
      metadata: "{}",
    });
    return [...smallPictureIn(svg)!.matchAll(/>([^<>]+)</g)].map(([, text]) => text).join(" ");
  };

  test.each([
    [everydayNames("after", "job", "before"), "after the repair", "before the repair"],
    [everydayNames(undefined, "job", "donor"), "this car", "another, sound car"],
    [everydayNames(undefined, "shelf", undefined), "this car", "a sound car like it"],
    [everydayNames(undefined, "job", undefined), "this car", "the other recording"],
  ])("%o", (names, mine, other) => {
    expect(words(names).toLowerCase()).not.toMatch(/suspect|reference|other[.]csv/);
    expect(words(names)).toContain(`${mine}, front to rear`);
    expect(words(names)).toContain(`${other}, front to rear`);
  });

  test("keeps what a hand wrote", () => {
    expect(words(everydayNames("after", "job", "before"), { "suspect-l1": "new converter" })).toContain(
      "new converter",
    );
  });
});
