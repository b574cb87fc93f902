// Where things land on the sheet, as Chromium sets them: the outside judge of our own layout without a page.

import { describe, expect, test } from "vitest";
import { exhibitSvg, sheetPlot } from "../../src/report/exhibit/exhibit-svg.ts";
import type { ExhibitSheet } from "../../src/report/exhibit/sheet.ts";
import { fontFaces, fontParts } from "../../src/report/paper/fonts.ts";
import { textWidth } from "../../src/report/paper/metrics.ts";
import { crowded, sheet } from "./samples.ts";

interface Edges {
  readonly what: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Sets the sheet on the page with its own fonts. */
async function show(given: ExhibitSheet): Promise<SVGSVGElement> {
  document.body.innerHTML = exhibitSvg(given, { fontFaces: await fontFaces(["latin"]) });
  await document.fonts.load('12px "Source Sans 3"');
  await document.fonts.load('600 12px "Source Sans 3"');
  return document.querySelector("svg")!;
}

function edgesOf(element: SVGGraphicsElement): Edges {
  const { x, y, width, height } = element.getBBox();
  return { what: element.textContent, left: x, top: y, right: x + width, bottom: y + height };
}

const cases: [string, ExhibitSheet][] = [
  ["a usual sheet on A4", sheet],
  ["a crowded sheet on Letter", crowded],
  ["a crowded sheet on A4", { ...crowded, paper: "A4" }],
];

describe.each(cases)("%s", (_, given) => {
  test("has every word inside the frame", async () => {
    const svg = await show(given);
    const { frame } = sheetPlot(given).page;
    for (const { what, left, top, right, bottom } of [...svg.querySelectorAll("text")].map(edgesOf)) {
      expect(left, what).toBeGreaterThanOrEqual(frame.x);
      expect(top, what).toBeGreaterThanOrEqual(frame.y);
      expect(right, what).toBeLessThanOrEqual(frame.x + frame.width);
      expect(bottom, what).toBeLessThanOrEqual(frame.y + frame.height);
    }
  });

  // Two dimensions stand where the user placed them, and may crowd each other.
  test("has no word on another, but for dimensions on dimensions", async () => {
    const svg = await show(given);
    const texts = [...svg.querySelectorAll("text")];
    const isPlaced = (text: Element) => text.closest("[data-dimension]") !== null;
    const touching = texts.flatMap((a, i) =>
      texts
        .slice(i + 1)
        .filter((b) => shared(edgesOf(a), edgesOf(b)) > 0.25 && !(isPlaced(a) && isPlaced(b)))
        .map((b) => `${a.textContent} / ${b.textContent}`),
    );
    expect(touching).toEqual([]);
  });
});

/** How far two boxes reach into each other, mm, the smaller way; boxes hold air above and below the letters. */
function shared(a: Edges, b: Edges): number {
  const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) - 0.3 * (a.bottom - a.top);
  return Math.min(across, down);
}

describe("textWidth", () => {
  // Chromium's shaper (HarfBuzz) on the embedded font.
  test.each([
    ["0123456789 … − ± × °", 400],
    ["Lifting off the throttle: the rear sensor sees air", 600],
    ["Größe çà søndag Łódź Příliš žluťoučký", 400],
    ["Катализатор Λάμδα", 600],
  ] as const)("of “%s” is what the browser sets, within 2 %, and not less", async (text, weight) => {
    const style = document.createElement("style");
    style.textContent = await fontFaces(fontParts(text));
    document.head.append(style);
    const font = `${weight} 100px "Source Sans 3"`;
    await document.fonts.load(font, text);
    const context = document.createElement("canvas").getContext("2d")!;
    context.font = font;
    const browser = context.measureText(text).width;
    const ours = textWidth(text, 100, weight);
    // Kerning and ligatures, which our table leaves out, only narrow.
    expect(ours).toBeGreaterThanOrEqual(browser * 0.998);
    expect(ours).toBeLessThanOrEqual(browser * 1.02);
  });
});
