// The job as one zip, with its recordings and pictures, handed to the browser to be saved.

import { packFiles } from "../../../workers/client.ts";
import { bundleEntries } from "../../job/bundle/bundle.ts";
import type { Ground } from "../core/ground.ts";
import { saveFile } from "../parts/save-file.ts";

export async function saveBundle({
  desk,
  service,
  notices,
}: Pick<Ground, "desk" | "service" | "notices">): Promise<void> {
  await desk.flush();
  const job = desk.job();
  const pictures = new Map<string, Blob>();
  for (const name of job.exhibits.flatMap(({ svg, png }) => [svg, png])) {
    const blob = await desk.store.blob(job.id, name);
    if (blob) pictures.set(name, blob);
  }
  const recordings = new Map<string, Blob>();
  for (const { id } of job.captures) {
    const file = await service.file(id);
    if (file) recordings.set(id, file);
  }
  const packed = await packFiles(bundleEntries({ job, pictures, recordings }));
  if (!packed.ok) return notices.show(packed.problem);
  saveFile(packed.value, `${job.name}.zip`);
  notices.say(`The job is saved as ${job.name}.zip.`);
}
