// @vitest-environment jsdom
// What an exhibit owes to paper: type that can be read, numbers of the day, words that no leader runs through.

import { describe, expect, test } from "vitest";
import type { Finding, LiftOff } from "../../src/exhaust/terms/analysis.ts";
import { newJob, putBackExhibit } from "../../src/job/edits/make.ts";
import { exhibitSvg } from "../../src/report/exhibit/exhibit-svg.ts";
import { withSheetNumber } from "../../src/report/exhibit/sheet-number.ts";
import { smallPictureIn } from "../../src/report/exhibit/small-picture.ts";
import { verdictLine } from "../../src/report/exhibit/wording.ts";
import { atMost, measured } from "../../src/signal/numbers/reading.ts";
import { crowded, sensors, sheet } from "./samples.ts";

/** A point is 1/72 inch (CSS Values 3, 5.2), so 8 pt are 2.82 mm; sheets are drawn in mm. */
const eightPoints = (8 / 72) * 25.4;

const drawn = (svg: string) => new DOMParser().parseFromString(svg, "image/svg+xml");
const sizesIn = (svg: string) =>
  [...drawn(svg).querySelectorAll("text")].map((text) => Number(text.getAttribute("font-size")));

describe("an exhibit on paper", () => {
  test.each([sheet, crowded, { ...sheet, readings: [] }])("has no text below 8 pt", (given) => {
    const svg = exhibitSvg(given, { metadata: "{}", fontFaces: "@font-face{}" });
    expect(sizesIn(svg).length).toBeGreaterThan(20);
    expect(Math.min(...sizesIn(svg))).toBeGreaterThanOrEqual(eightPoints);
    const small = smallPictureIn(svg)!;
    expect(Math.min(...sizesIn(small))).toBeGreaterThanOrEqual(eightPoints);
    expect(small).toContain("@font-face");
  });

  test("holds a picture of the sensors alone for the customer, as wide as the sheet between its margins", () => {
    const small = drawn(smallPictureIn(exhibitSvg(sheet, { metadata: "{}" }))!);
    expect(small.documentElement.getAttribute("width")).toBe("182mm");
    const words = [...small.querySelectorAll("text")].map(({ textContent }) => textContent);
    expect(words).toContain("0.05\u00a0s");
    expect(words.join()).not.toMatch(/Throttle|grey band/);
    expect(smallPictureIn(exhibitSvg(sheet))).toBeNull();
  });

  test("says what the band means where the rear would have stayed in one", () => {
    const line = Float64Array.of(sheet.view.from, sheet.view.to);
    const band = { form: "band", source: "healthy", label: "Sound", look: "rear", fill: "grey" } as const;
    const layers = [...sensors.layers, { ...band, times: line, low: line, middle: line, high: line }];
    const svg = exhibitSvg({ ...sheet, lanes: [{ ...sensors, layers }] }, { metadata: "{}" });
    expect(smallPictureIn(svg)).toContain("A sound converter would have stayed in the grey band.");
  });

  test("names the sensors whole beside another recording's, for the sentence names the band", () => {
    const line = Float64Array.of(sheet.view.from, sheet.view.to);
    const band = { form: "band", source: "healthy", label: "Sound catalyst", look: "rear", fill: "grey" } as const;
    const own = ["Front O2 sensor", "Rear O2 sensor"].map((label, i) => ({ ...sensors.layers[i]!, label }));
    const behind = own.map((layer) => ({ ...layer, of: "dead-catalyst-scope.csv.gz" }));
    const layers = [...own, ...behind, { ...band, times: line, low: line, middle: line, high: line }];
    const svg = exhibitSvg({ ...sheet, lanes: [{ ...sensors, layers } as typeof sensors] }, { metadata: "{}" });
    const words = [...drawn(smallPictureIn(svg)!).querySelectorAll("text")].map(({ textContent }) => textContent);
    expect(words).toEqual(expect.arrayContaining(["Front O2 sensor", "Rear O2 sensor"]));
    expect(words).not.toContain("Sound catalyst");
  });

  test("is numbered as the job stands when it is printed", () => {
    const svg = exhibitSvg(sheet);
    const printed = [...drawn(withSheetNumber(svg, { sheet: 3, sheets: 7 })).querySelectorAll("text")];
    expect(printed.map(({ textContent }) => textContent)).toContain("3 of 7");
    expect(svg).toContain(">2 of 4<");
    expect(withSheetNumber("<svg/>", { sheet: 1, sheets: 1 })).toBe("<svg/>");
  });

  test("has leaders that run around the words of all notes, their own too", () => {
    const at = (time: number, level: number) => ({ time, level });
    const note = { laneId: "sensors", side: "above-right" } as const;
    const notes = [
      { ...note, id: "n1", at: at(30, 0.5), text: "Both are rich here, and the converter is emptied" },
      { ...note, id: "n2", at: at(29.6, 0.42), text: "Held for three seconds" },
      { ...note, id: "n3", at: at(29.2, 0.34), text: "At full load" },
      // Beside the point there is no room for the words: they stand above it.
      { ...note, id: "n4", at: at(sheet.view.to - 1.2, 0.2), text: "Look here, and a little further" },
    ];
    const page = drawn(exhibitSvg({ ...sheet, notes, dimensions: [] }));
    const groups = [...page.querySelectorAll("g[data-note]")];
    expect(groups).toHaveLength(4);
    for (const one of groups) {
      const [, x1, y1, x2, y2] = /M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/
        .exec(one.querySelector("path")!.getAttribute("d")!)!
        .map(Number) as [number, number, number, number, number];
      for (const other of groups) {
        for (const text of other.querySelectorAll("text")) {
          const [x, y] = [Number(text.getAttribute("x")), Number(text.getAttribute("y"))];
          // A hundred places of the leader against a box that holds at least the middle of the line of words.
          const width = text.textContent.length * 1.2;
          const through = Array.from({ length: 101 }, (_, i) => [
            x1 + ((x2 - x1) * i) / 100,
            y1 + ((y2 - y1) * i) / 100,
          ]);
          expect(through.some(([px, py]) => px! > x && px! < x + width && py! > y - 2 && py! < y)).toBe(false);
        }
      }
    }
  });
});

describe("the verdict's line", () => {
  const reading = measured(1, [0.9, 1.1], "s");
  const lift: LiftOff = {
    ...{ id: "1", at: 31, frontFall: reading, rearFall: reading, delay: reading, storedOxygen: atMost(1, "g") },
    ...{ fuelCut: "likely", airFlow: 10, engineSpeed: 3000, rejected: null, setAside: null, origin: "found" },
    ...{ fuelReturn: reading, richAgain: reading, corrected: null, rearSwitch: reading, valid: true, remarks: [] },
  };
  const byLifts = { reading: "liftOff.delay", says: "soon", at: { kind: "lift-offs" } } as const;
  const bySteady = { reading: "amplitudeRatio", says: "wide", at: { kind: "stretch", from: 80, to: 110 } } as const;
  const finding = (part: Partial<Finding>): Finding => ({
    ...{ id: "catalyst", verdict: "points-to", statement: "", for: [byLifts, bySteady], against: [], next: [] },
    ...{ dependsOn: [] },
    ...part,
  });
  const view = { from: 25, to: 37 };

  test("stands where what is shown supports it", () => {
    expect(verdictLine(finding({}), { liftOff: lift, view })).toBe("This points to the catalyst.");
    const away = finding({ verdict: "points-away", for: [], against: [byLifts] });
    expect(verdictLine(away, { liftOff: lift, view })).toBe("This points away from the catalyst.");
    expect(verdictLine(finding({}), { liftOff: null, view: { from: 90, to: 100 } })).not.toBe("");
  });

  test("says whose it is beside a reference", () => {
    const away = finding({ verdict: "points-away", for: [], against: [byLifts] });
    const says = (one: Finding, liftOff: LiftOff | null) => verdictLine(one, { liftOff, view, isCompared: true });
    expect(says(finding({}), lift)).toBe("The suspect points to the catalyst.");
    expect(says(away, lift)).toBe("The suspect points away from the catalyst.");
    expect(says(finding({}), null)).toBe("");
  });

  test("does not where nothing is said, nothing shown supports it, or what is shown stands against it", () => {
    expect(verdictLine(finding({ verdict: "cannot-say" }), { liftOff: lift, view })).toBe("");
    expect(verdictLine(finding({}), { liftOff: null, view })).toBe("");
    expect(verdictLine(finding({}), { liftOff: { ...lift, setAside: "hand" }, view })).toBe("");
    expect(verdictLine(finding({ against: [byLifts] }), { liftOff: lift, view })).toBe("");
  });
});

test("an exhibit that was removed comes back to its place", () => {
  const one = (id: string) => ({
    ...{ id, captureId: "a", revision: 1, headline: id, madeAt: "", paper: "A4" as const, svg: "", png: "" },
  });
  const job = { ...newJob("j", "2026-05-04T10:00:00Z", "Job"), exhibits: [one("a"), one("c")] };
  expect(putBackExhibit(job, job.createdAt, one("b"), 1).exhibits.map(({ id }) => id)).toEqual(["a", "b", "c"]);
});
