// @vitest-environment jsdom

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { linesOf } from "../../src/drawing/layer.ts";
import { exhibitSvg } from "../../src/report/exhibit/exhibit-svg.ts";
import type { ExhibitSheet, SheetLine } from "../../src/report/exhibit/sheet.ts";
import { compactPen } from "../../src/report/paper/compact-pen.ts";
import { airLane, lagged, sensors, sheet, speedLane, throttleLane } from "./samples.ts";

/** Read by a strict XML parser that is not ours; a fault in the markup fails the test. */
function parsed(svg: string): Document {
  const page = new DOMParser().parseFromString(svg, "image/svg+xml");
  expect(page.querySelector("parsererror")).toBeNull();
  return page;
}

function textsOf(svg: string): string[] {
  return [...parsed(svg).querySelectorAll("text")].map((text) => text.textContent);
}

describe("the exhibit's words", () => {
  test("state job, vehicle, recording, hash, rate, conditions, settings, sheet and revision", () => {
    const all = textsOf(exhibitSvg(sheet)).join("\n");
    const { title } = sheet;
    const stated = [title.job, title.vehicle, title.recording, title.sampleRate, title.recordedAt, title.conditions];
    for (const text of [...stated, title.drawnBy, title.drawnAt, "2 of 4", "Tracewright"]) expect(all).toContain(text);
    for (const text of title.settings) expect(all).toContain(text);
    expect(all.replaceAll(" ", "")).toContain(title.sha256);
    expect(all).toContain("3fa9c21b … 09ee41d7");
    expect(all).toContain("at least 95 of 100 cases");
    expect(all).toContain("The decision rests with the technician and with local rules.");
  });

  test("give a dimension's value, its bounds and its label", () => {
    const texts = textsOf(exhibitSvg(sheet));
    expect(texts).toContain("0.05\u00a0s");
    expect(texts).toContain("0.04 … 0.06, front to rear");
  });

  test("stand on a plate where a trace runs through them wherever they might stand", () => {
    const grounds = (lanes: ExhibitSheet["lanes"]) =>
      parsed(exhibitSvg({ ...sheet, lanes })).querySelectorAll("[data-dimension] > rect").length;
    const everywhere = lagged((t) => (Math.sin(60 * t) > 0 ? 1 : 0), 0.001, 20_000);
    const [front, ...rest] = linesOf(sensors) as [SheetLine, ...SheetLine[]];
    expect(grounds([{ ...sensors, layers: [{ ...front, ...everywhere }, ...rest] }, throttleLane])).toBeGreaterThan(0);
    expect(grounds([{ ...sensors, layers: [] }, throttleLane])).toBe(0);
  });

  test("name each lane with its unit and each trace beside its line", () => {
    const texts = textsOf(exhibitSvg({ ...sheet, lanes: [sensors, throttleLane, speedLane, airLane] }));
    for (const name of ["Oxygen sensors, V", "Throttle, %", "Engine speed, rpm", "Air flow, g/s", "crankshaft"])
      expect(texts).toContain(name);
  });

  test("give a low lane two numbers to read it by", () => {
    const low = { ...speedLane, scale: [3600, 4100] as const, share: 0.4 };
    const page = parsed(exhibitSvg({ ...sheet, lanes: [sensors, low, throttleLane, airLane] }));
    const numbers = [...page.querySelectorAll('text[text-anchor="end"]')].map((text) => Number(text.textContent));
    expect(numbers.filter((number) => number >= 3600 && number <= 4100).length).toBeGreaterThanOrEqual(2);
  });

  test("leave plate, VIN and customer off unless they are given, name and all", () => {
    const without = textsOf(exhibitSvg(sheet)).join("\n");
    expect(without).not.toMatch(/plate|VIN|customer/i);
    const title = { ...sheet.title, plate: "AB CD 123", vin: "12345678901234567" };
    const texts = textsOf(exhibitSvg({ ...sheet, title }));
    expect(texts).toContain("AB CD 123");
    expect(texts).toContain("12345678901234567");
    expect(texts).not.toContain("Customer");
  });

  test("say how many readings found no room", () => {
    const many = Array.from({ length: 12 }, () => sheet.readings[0]!);
    expect(textsOf(exhibitSvg({ ...sheet, readings: many })).join("\n")).toMatch(/Readings, \d+ of 12/);
  });

  test("draw no dimension and no note outside the view", () => {
    const gone = { ...sheet.dimensions[0]!, from: { time: 1, level: 0 }, to: { time: 2, level: 0 } };
    const note = {
      id: "n",
      laneId: "sensors",
      at: { time: 2, level: 0.5 },
      text: "far away",
      side: "above-left",
    } as const;
    const svg = exhibitSvg({ ...sheet, dimensions: [gone], notes: [note] });
    expect(svg).not.toContain("far away");
    expect(parsed(svg).querySelector("[data-dimension]")).toBeNull();
  });
});

describe("hostile text", () => {
  const dressed = (text: string): ExhibitSheet => ({
    ...sheet,
    headline: text,
    notes: [{ id: text, laneId: "sensors", at: { time: 30, level: 0.5 }, text, side: "above-right" }],
    shade: { span: { from: 26, to: 28 }, label: text },
    dimensions: [{ ...sheet.dimensions[0]!, id: text, label: text }],
    lanes: [{ ...sensors, title: text, unit: text, layers: [] }],
    readings: [{ name: text, reading: sheet.readings[0]!.reading }],
    title: { ...sheet.title, job: text, vehicle: text, plate: text, recording: text, settings: [text] },
  });

  test("stays text: no element, no attribute, no broken markup", () => {
    const evil = `</text><script>alert(1)</script><image href="https://x" onload='y'/>&lt;`;
    const page = parsed(exhibitSvg(dressed(evil)));
    expect(page.querySelector("script, image, [onload], [href]")).toBeNull();
    expect(page.querySelector("title")?.textContent).toBe(evil);
  });

  test("of any kind gives well-formed XML with the same elements", () => {
    const names = (text: string) =>
      [...parsed(exhibitSvg(dressed(text))).querySelectorAll("*")].map((e) => e.localName);
    const allowed = new Set(names("plain"));
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 40 }), (text) => {
        for (const name of names(text)) expect(allowed).toContain(name);
      }),
      { numRuns: 25 },
    );
  });

  test("loses only what XML 1.0 does not allow", () => {
    expect(parsed(exhibitSvg(dressed("a\u0000b\ud800c\u0007 ü 😀"))).querySelector("title")?.textContent).toBe(
      "a\ufffdb\ufffdc\ufffd ü 😀",
    );
  });
});

describe("the exhibit's lines", () => {
  test("the same sheet gives the same text", () => {
    expect(exhibitSvg(sheet)).toBe(exhibitSvg(structuredClone(sheet)));
  });

  test("the front is thinner than half the rear, and a reference is dashed", () => {
    const [front, rear] = linesOf(sensors);
    const theirs = { ...front!, channelId: "known-good", stroke: "dashed", isBehind: true } as const;
    const page = parsed(exhibitSvg({ ...sheet, lanes: [{ ...sensors, layers: [front!, rear!, theirs] }] }));
    const width = (id: string) => Number(page.querySelector(`[data-trace="${id}"]`)?.getAttribute("stroke-width"));
    // ISO 128-2: a wide line is at least twice a narrow one.
    expect(width("c2")).toBeGreaterThanOrEqual(2 * width("c1"));
    const line = (id: string) => page.querySelector(`[data-trace="${id}"] path`)!;
    const pieces = (id: string) => line(id).getAttribute("d")!.match(/M/g)!.length;
    // Crowded, it is broken into pieces all along; with few samples its stroke is dashed.
    expect(pieces("known-good")).toBeGreaterThan(pieces("c1") + 20);
    expect(line("c1").getAttribute("stroke-dasharray")).toBeNull();
    const few = {
      ...theirs,
      times: Float64Array.of(sheet.view.from, sheet.view.to),
      values: Float64Array.of(0.1, 0.9),
    };
    const sparse = parsed(exhibitSvg({ ...sheet, lanes: [{ ...sensors, layers: [few] }] }));
    expect(sparse.querySelector('[data-trace="known-good"] path')?.getAttribute("stroke-dasharray")).toBeTruthy();
  });

  test("a gap in the samples is a gap in the line", () => {
    const line = lagged(() => 0.5, 1, 100);
    line.values.fill(Number.NaN, 40, 60);
    const lane = { ...sensors, layers: [{ ...linesOf(sensors)[0]!, ...line }] };
    const d = parsed(exhibitSvg({ ...sheet, lanes: [lane] }))
      .querySelector("[data-trace] path")
      ?.getAttribute("d");
    expect(d?.match(/M/g)).toHaveLength(2);
  });

  test("what is usual is hatched one way for the front, the other for the rear, with a chain line that no trace has", () => {
    const usual = (look: "front" | "rear") => {
      const { times, values: middle } = lagged(() => 0.5, 1, 100);
      const around = (by: number) => middle.map((value, i) => (i >= 40 && i < 60 ? Number.NaN : value + by));
      return {
        form: "band" as const,
        source: "usual",
        label: "Usual",
        look,
        times,
        low: around(-0.1),
        middle: around(0),
        high: around(0.1),
      };
    };
    const page = parsed(
      exhibitSvg({
        ...sheet,
        lanes: [{ ...sensors, layers: [...sensors.layers, usual("front"), usual("rear"), usual("rear")] }],
      }),
    );
    const turns = [...page.querySelectorAll("pattern")].map((one) => one.getAttribute("patternTransform"));
    expect(turns).toEqual(["rotate(45)", "rotate(-45)"]);
    const [band, middle] = page.querySelectorAll('[data-band="usual front"] path');
    expect(band!.getAttribute("fill")).toBe(`url(#${page.querySelector("pattern")!.id})`);
    for (const line of [band!, middle!]) expect(line.getAttribute("d")!.match(/M/g)).toHaveLength(2);
    const dashes = (wanted: string) =>
      [...page.querySelectorAll(wanted)].map((one) => one.getAttribute("stroke-dasharray")).filter(Boolean);
    expect(dashes("[data-trace] path")).not.toContain(middle!.getAttribute("stroke-dasharray"));
    expect([...page.querySelectorAll("text")].map((text) => text.textContent)).toContain("Usual");
  });

  test("six thousand values of a dense trace take less than 16 bytes each", () => {
    const { times, values } = lagged((t) => Math.sin(40 * t), 0.01, 6000);
    const trace = { ...linesOf(sensors)[0]!, times: times.map((_, i) => times[i - (i % 2)]!), values, dense: true };
    const lane = { ...sensors, scale: [-1, 1] as const, layers: [trace] };
    const bare = exhibitSvg({ ...sheet, lanes: [{ ...lane, layers: [] }] }).length;
    expect(exhibitSvg({ ...sheet, lanes: [lane] }).length - bare).toBeLessThan(6000 * 16);
  });
});

describe("details", () => {
  const view = { from: 30.7, to: 33.7 };
  const detail = { letter: "A", view, lane: { ...sensors, title: "A: lift-off 1", isKeyless: true }, dimensions: [] };
  const page = parsed(exhibitSvg({ ...sheet, details: [detail], dimensions: [] }));

  test("stand beside the lanes under their letter, and what they enlarge is framed under the same", () => {
    const [framed, drawn] = [page.querySelector("[data-framed]")!, page.querySelector("[data-detail]")!];
    expect(framed.getAttribute("data-framed")).toBe("A");
    expect(framed.querySelector("text")!.textContent).toBe("A");
    expect([...drawn.querySelectorAll("text")].some((text) => text.textContent.startsWith("A: lift-off 1"))).toBe(true);
    const right = Math.max(...[...page.querySelectorAll("clipPath[id^=lane] rect")].map(edgeOf));
    const left = Number(drawn.querySelector("clipPath rect")!.getAttribute("x"));
    expect(left).toBeGreaterThan(right);
  });

  test("have ids of their own, and frame as much of the lane as they show", () => {
    const ids = [...page.querySelectorAll("[id]")].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const lane = page.querySelector("clipPath#lane1 rect")!;
    const frame = [...page.querySelectorAll("[data-framed] rect")].find((one) => one.getAttribute("fill") === "none")!;
    const [framed, whole] = [frame, lane].map((one) => Number(one.getAttribute("width")));
    expect(framed! / whole!).toBeCloseTo((view.to - view.from) / (sheet.view.to - sheet.view.from), 2);
  });

  function edgeOf(rect: Element): number {
    return Number(rect.getAttribute("x")) + Number(rect.getAttribute("width"));
  }
});

describe("compactPen", () => {
  /** Reads `M x y l dx dy dx dy …` back as the SVG path grammar has it (SVG 1.1, 8.3.9). */
  function pointsOf(d: string): [number, number][] {
    const points: [number, number][] = [];
    for (const part of d.split("M").slice(1)) {
      const numbers = (part.match(/-?(\d+\.\d+|\.\d+|\d+)/g) ?? []).map(Number);
      let [x, y] = [0, 0];
      for (let i = 0; i < numbers.length; i += 2) {
        x += numbers[i]!;
        y += numbers[i + 1]!;
        points.push([x, y]);
      }
    }
    return points;
  }

  test("what it writes leads back to every point within half a hundredth of a millimetre, without drift", () => {
    const coordinate = fc.double({ min: -300, max: 300, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 60 }), (points) => {
        const pen = compactPen();
        pen.moveTo(...points[0]!);
        for (const point of points.slice(1)) pen.lineTo(...point);
        const back = pointsOf(pen.text());
        for (const [x, y] of points)
          expect(back.some(([bx, by]) => Math.abs(bx - x) < 0.00501 && Math.abs(by - y) < 0.00501)).toBe(true);
      }),
    );
  });
});
