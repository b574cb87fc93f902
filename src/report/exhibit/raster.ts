// The sheet as pixels, and out of the page: PNG, clipboard, download. Needs a browser.

import { ProblemError } from "../../problem.ts";
import { withPaperSize } from "../paper/png-size.ts";
import { pageOf } from "./page.ts";
import type { Paper } from "./sheet.ts";

const millimetresPerInch = 25.4;
const printDots = 300;

/** Pixels across a sheet at 300 dots per inch: 3508 for A4, 3300 for Letter. */
export const printPixels = (paper: Paper): number => Math.round((pageOf(paper).width / millimetresPerInch) * printDots);

/**
 * An SVG as PNG, `width` pixels wide, height after the SVG's own proportions.
 *
 * @param svg text of an SVG with a size of its own and nothing outside itself.
 * @throws ProblemError "not-possible-here" when the browser cannot draw it or has no memory for it.
 */
export async function rasterise(svg: string, width: number): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    return await draw(image, width);
  } catch (error) {
    if (error instanceof DOMException) throw cannotDraw();
    throw error;
  } finally {
    URL.revokeObjectURL(address);
  }
}

async function draw(image: HTMLImageElement, width: number): Promise<Blob> {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = Math.round((width * image.naturalHeight) / image.naturalWidth);
  const context = canvas.getContext("2d");
  if (!context) throw cannotDraw();
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/png"));
  if (!blob) throw cannotDraw();
  // The browser took the SVG's millimetres for 96 px an inch (CSS Values 3, 5.2).
  const perMillimetre = (width / image.naturalWidth) * (96 / millimetresPerInch);
  return new Blob([withPaperSize(new Uint8Array(await blob.arrayBuffer()), perMillimetre)], { type: "image/png" });
}

function cannotDraw(): ProblemError {
  return new ProblemError({
    code: "not-possible-here",
    what: "This browser could not turn the sheet into a picture.",
    remedy: "Download the SVG instead, or close other pages and try again.",
  });
}

export const canCopyPictures = (): boolean => typeof ClipboardItem !== "undefined" && "clipboard" in navigator;

/** @throws ProblemError "not-possible-here" when the browser does not allow it. */
export async function copyPicture(png: Blob): Promise<void> {
  try {
    await navigator.clipboard.write([new ClipboardItem({ "image/png": png })]);
  } catch {
    throw new ProblemError({
      code: "not-possible-here",
      what: "This browser did not let the picture onto the clipboard.",
      remedy: "Download the PNG instead.",
    });
  }
}

/** A file name without its ending that every file system takes: "demo-job-7-sheet-2-r1". */
export function exhibitFileStem(job: string, sheet: number, revision: number): string {
  const stem = job
    .normalize("NFKD")
    .replace(/\p{Mark}+/gu, "")
    .toLowerCase()
    .replace(/[^\p{Letter}\p{Number}]+/gu, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60);
  return `${stem || "exhibit"}-sheet-${sheet}-r${revision}`;
}
