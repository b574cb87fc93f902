// The exhibit's pixels, judged from outside: drawn by Chromium, turned grey, read by an optical character reader.

import { beforeAll, describe, expect, test } from "vitest";
import { commands } from "vitest/browser";
import { exhibitSvg, sheetPlot } from "../../src/report/exhibit/exhibit-svg.ts";
import { laneOf, onPaper } from "../../src/report/exhibit/plot-area.ts";
import { printPixels, rasterise } from "../../src/report/exhibit/raster.ts";
import { fontFaces } from "../../src/report/paper/fonts.ts";
import { fall, sheet } from "./samples.ts";

const width = 2400;

interface Grey {
  readonly canvas: HTMLCanvasElement;
  readonly pixels: ImageData;
  readonly perMillimetre: number;
}

/** Luma after ITU-R BT.601, as a grey printer or photocopier gives it, near enough. */
async function inGrey(png: Blob): Promise<Grey> {
  const bitmap = await createImageBitmap(png);
  const canvas = document.createElement("canvas");
  canvas.width = bitmap.width;
  canvas.height = bitmap.height;
  const context = canvas.getContext("2d")!;
  context.drawImage(bitmap, 0, 0);
  const pixels = context.getImageData(0, 0, canvas.width, canvas.height);
  const { data } = pixels;
  for (let i = 0; i < data.length; i += 4) {
    data.fill(0.299 * data[i]! + 0.587 * data[i + 1]! + 0.114 * data[i + 2]!, i, i + 3);
  }
  context.putImageData(pixels, 0, 0);
  return { canvas, pixels, perMillimetre: bitmap.width / sheetPlot(sheet).page.width };
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where the page sets a text of the sheet, mm. */
function boxOf(text: string): Box {
  const found = [...document.querySelectorAll("text")].find((element) => element.textContent === text);
  if (!found) throw new Error(`no text "${text}" on the sheet`);
  const { x, y, width, height } = found.getBBox();
  return { x: x - 1, y, width: width + 2, height };
}

/** What the optical reader makes of parts of the grey picture, mm. */
function read(boxes: readonly Box[]): Promise<string[]> {
  return commands.readWords(boxes.map(cutOut));
}

/** A part of the grey picture with a little white around it, PNG as base64. */
function cutOut(box: Box): string {
  const k = grey.perMillimetre;
  const edge = 12;
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(box.width * k) + 2 * edge;
  canvas.height = Math.round(box.height * k) + 2 * edge;
  const context = canvas.getContext("2d")!;
  context.fillStyle = "#fff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  const [width, height] = [canvas.width - 2 * edge, canvas.height - 2 * edge];
  context.drawImage(grey.canvas, box.x * k, box.y * k, width, height, edge, edge, width, height);
  return canvas.toDataURL("image/png").split(",")[1]!;
}

let png: Blob;
let grey: Grey;

beforeAll(async () => {
  const svg = exhibitSvg(sheet, { fontFaces: await fontFaces(["latin"]) });
  document.body.innerHTML = svg;
  await document.fonts.ready;
  png = await rasterise(svg, width);
  grey = await inGrey(png);
});

describe("the exhibit at 2400 pixels", () => {
  test("is that wide, and more at print size", async () => {
    const bitmap = await createImageBitmap(png);
    // ISO 216: A4 is 297 mm by 210 mm.
    expect([bitmap.width, bitmap.height]).toEqual([2400, Math.round((2400 * 210) / 297)]);
    // 297 mm at 300 dots an inch.
    expect(printPixels("A4")).toBe(3508);
    expect(printPixels("Letter")).toBe(3300);
  });

  test("in grey, a reader finds the dimension's value and its bounds", async () => {
    const { plot } = sheetPlot(sheet);
    const [x, y] = onPaper(plot, laneOf(plot, "sensors")!, { time: fall, level: sheet.dimensions[0]!.place });
    const [dimension] = await read([{ x: x + 9, y: y - 5, width: 60, height: 13 }]);
    expect(dimension).toMatch(/0\.05\s?s/);
    expect(dimension).toMatch(/0\.04\s?\S{1,3}\s?0\.06/);
    expect(dimension).toContain("front to rear");
  });

  test("in grey, a reader finds headline, axis, readings and the title block word for word", async () => {
    const { title } = sheet;
    const hash = title.sha256.match(/.{8}/g)!.join(" ");
    const wanted = [
      ...[title.job, title.vehicle, title.recording, title.recordedAt, title.conditions, title.settings.join(" ")],
      ...["Delay, front to rear", "1.42\u00a0Hz", "at most 0.16\u00a0g", "30\u00a0s", "Oxygen sensors, V"],
      ...[
        "Bounds hold the true value in at least 95 of 100 cases. The decision rests with the technician and with local rules.",
      ],
    ];
    const texts = await read([...wanted, hash].map(boxOf));
    // Blanks are the reader's guess; letters and figures are not.
    const letters = (text: string) => text.replace(/\s/g, "");
    expect(texts.slice(0, -1).map(letters)).toEqual(wanted.map(letters));
    // Sixty-four digits without meaning: the reader may stumble in one group of eight.
    const groups = texts.at(-1)!.trim().split(/\s+/);
    expect(groups.filter((group) => hash.includes(group) && group.length === 8).length).toBeGreaterThanOrEqual(7);
  });

  test("in grey, front and rear differ by the width of their lines", () => {
    const { plot } = sheetPlot(sheet);
    const lane = laneOf(plot, "sensors")!;
    // Full load: both lie flat, the front at 0.89 V, the rear at 0.84 V.
    // The thinnest place of some, as noise on a line thickens the others.
    const thickness = (level: number) =>
      Math.min(
        ...[30.2, 30.3, 30.4, 30.5, 30.6].map((time) => {
          const [x, y] = onPaper(plot, lane, { time, level });
          return darkRun(grey, x, y);
        }),
      );
    const [front, rear] = [thickness(0.89), thickness(0.84)];
    expect(front).toBeGreaterThanOrEqual(1);
    expect(rear).toBeGreaterThanOrEqual(2 * front);
  });
});

/** Pixels darker than half in the column at (x, y) mm, 1.5 mm up and down. */
function darkRun({ pixels, perMillimetre }: Grey, x: number, y: number): number {
  const column = Math.round(x * perMillimetre);
  const reach = Math.round(1.5 * perMillimetre);
  const middle = Math.round(y * perMillimetre);
  let dark = 0;
  for (let row = middle - reach; row <= middle + reach; row++) {
    if (pixels.data[4 * (row * pixels.width + column)]! < 160) dark++;
  }
  return dark;
}
