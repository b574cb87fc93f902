// Where each thing lies in the folder that is handed over.

import type { CaptureRecord, PhotoRecord } from "../../job/record/job.ts";
import { photoNames } from "../../job/record/photo-names.ts";

export const recordingPath = ({ id, fileName }: CaptureRecord): string =>
  `recordings/${id.slice(0, 12)}-${fileName.replace(/^.*[/\\]/, "") || "recording"}`;

/** @param sheet  1 for the first. */
export const exhibitPath = (sheet: number, kind: "png" | "svg"): string => `exhibits/sheet-${sheet}.${kind}`;

/** The picture on the customer's sheet, by the name it is kept under. */
export const sheetPicturePath = (picture: string): string =>
  `customer-sheet-picture.${picture.endsWith(".svg") ? "svg" : "png"}`;

/** A photo's copy for paper, by the name it is kept under. */
export function photoPath(scaled: string, photos: readonly PhotoRecord[]): string {
  const at = photos.findIndex(({ id }) => photoNames(id).scaled === scaled);
  return at < 0 ? scaled : `photos/photo-${at + 1}.jpg`;
}

/** A photo as it was taken, by its place in the job; with the ending its kind of picture has. */
export function originalPath(at: number, { name, type }: PhotoRecord): string {
  const ending = /\.([a-z0-9]{1,5})$/i.exec(name)?.[1]?.toLowerCase() ?? (type.split("/")[1] || "jpg");
  return `photos/photo-${at + 1}-as-taken.${ending}`;
}

/** A path as a link has it. */
export const linkTo = (path: string): string => path.split("/").map(encodeURIComponent).join("/");
