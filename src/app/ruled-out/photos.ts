// Photos kept with the job: the file as it was taken, named by the SHA-256 of its bytes, and a copy scaled for paper.

import { keepPhoto } from "../../job/edits/paper-edits.ts";
import { newId } from "../../job/record/new-id.ts";
import { photoNames } from "../../job/record/photo-names.ts";
import type { Ground } from "../core/ground.ts";

/** Longest side of the copy for paper, px: 90 mm at 300 dots per inch. */
const paperSide = 1063;

/**
 * Keeps the file and its copy for paper.
 *
 * @returns the name under which the copy is kept; null where the file is no picture the browser can read.
 */
export async function keepPhotoFile({ desk, notices }: Ground, file: File): Promise<string | null> {
  const scaled = await scaledForPaper(file);
  if (!scaled) {
    notices.show({
      code: "not-possible-here",
      what: "This file is no picture that the browser can show.",
      where: file.name,
      remedy: "Take a JPEG or PNG; most phones can be set to save JPEG.",
    });
    return null;
  }
  const id = await nameOf(file);
  const { id: jobId } = desk.job();
  await desk.store.keepBlob(jobId, photoNames(id).original, file);
  await desk.store.keepBlob(jobId, photoNames(id).scaled, scaled);
  desk.change((job, at) => keepPhoto(job, at, { id, name: file.name, type: file.type, size: file.size }));
  return photoNames(id).scaled;
}

/** SHA-256 of its bytes; any name on a page that came over plain http, where the browser makes no digests. */
async function nameOf(file: File): Promise<string> {
  if (!globalThis.crypto.subtle) return newId();
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await file.arrayBuffer()));
  return [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function scaledForPaper(file: Blob): Promise<Blob | null> {
  const picture = await createImageBitmap(file).catch(() => null);
  if (!picture) return null;
  const share = Math.min(1, paperSide / Math.max(picture.width, picture.height));
  const canvas = new OffscreenCanvas(Math.ceil(picture.width * share), Math.ceil(picture.height * share));
  const paint = canvas.getContext("2d");
  if (!paint) return null;
  paint.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 });
}
