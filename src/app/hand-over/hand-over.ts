// The folder for a warranty desk as one zip, handed to the browser to be saved.

import { packFiles } from "../../../workers/client.ts";
import { sheetRow } from "../../job/edits/exhibits.ts";
import { proofOfJob } from "../../job/proof/proof.ts";
import { jobText } from "../../job/record/format.ts";
import { photoNames } from "../../job/record/photo-names.ts";
import { customerSheet } from "../../report/customer/customer-sheet.ts";
import { smallPictureIn } from "../../report/exhibit/small-picture.ts";
import { handOverTexts } from "../../report/hand-over/hand-over.ts";
import { openRecord } from "../../report/hand-over/open-record.ts";
import { exhibitPath, originalPath, photoPath, recordingPath, sheetPicturePath } from "../../report/hand-over/paths.ts";
import { sheetOfFolder } from "../../report/hand-over/sheet-page.ts";
import { localInstant } from "../../signal/written/date-text.ts";
import type { Comparing } from "../comparing/comparing.ts";
import type { Ground } from "../core/ground.ts";
import { saveFile } from "../parts/save-file.ts";

export async function handOver(
  { desk, service, readings, captureId, notices }: Ground,
  comparing: Comparing,
): Promise<void> {
  if (readings.isReadingWhole() || comparing.isUnderWay()) {
    return notices.say("The recording is still being measured. Hand over when its answer stands.");
  }
  await desk.flush();
  const job = desk.job();
  const repair = comparing.beforeAfter()?.comparison ?? null;
  const whole = readings.answered();
  const now = localInstant(new Date());
  const exhibits = sheetRow(job.exhibits).map((revisions) => revisions.at(-1)!);
  const entries: Record<string, Uint8Array | Blob> = {};
  const keepBlob = async (path: string, name: string) => {
    const blob = await desk.store.blob(job.id, name);
    if (blob) entries[path] = blob;
  };
  /** The drawing that the sheet shows: the sensors' lanes alone, where the exhibit holds them. */
  const keepSheetPicture = async (name: string | null) => {
    const blob = name && (await desk.store.blob(job.id, name));
    if (!blob) return;
    const small = name.endsWith(".svg") ? smallPictureIn(await blob.text()) : null;
    entries[sheetPicturePath(name)] = small === null ? blob : new Blob([small]);
  };
  for (const [at, { svg, png }] of exhibits.entries()) {
    await keepBlob(exhibitPath(at + 1, "png"), png);
    await keepBlob(exhibitPath(at + 1, "svg"), svg);
  }
  const photos = job.photos ?? [];
  for (const [at, photo] of photos.entries()) {
    const { original, scaled } = photoNames(photo.id);
    await keepBlob(originalPath(at, photo), original);
    await keepBlob(photoPath(scaled, photos), scaled);
  }
  const atHand = new Set<string>();
  for (const record of job.captures) {
    const file = await service.file(record.id);
    if (!file) continue;
    atHand.add(record.id);
    entries[recordingPath(record)] = file;
  }
  const findings = whole?.findings ?? [];
  const sheet = customerSheet({ job, findings, liftOff: whole?.liftOff ?? null, repair, judged: captureId(), now });
  const proof = proofOfJob(job, repair);
  await keepSheetPicture(sheetOfFolder({ job, sheet }).picture);
  const texts = handOverTexts({ job, analysis: whole, comparison: repair, sheet, proof, exhibits, atHand, now });
  const bytes = Object.entries({ ...texts, "job.json": jobText(openRecord(job)) }).map(([name, text]) => {
    return [name, new TextEncoder().encode(text)] as const;
  });
  const packed = await packFiles({ ...Object.fromEntries(bytes), ...entries });
  if (!packed.ok) return notices.show(packed.problem);
  saveFile(packed.value, `${job.name} hand-over.zip`);
  notices.say(
    `${job.name} hand-over.zip is packed, and handed to the browser. Its free text, replies and photos may name the owner: look first.`,
  );
}
