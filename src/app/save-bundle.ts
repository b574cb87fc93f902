// The job as one zip, with its recordings and pictures, handed to the browser to be saved.

import { packBundle } from "../job/bundle.ts";
import { saveFile } from "./parts/save-file.ts";
import type { Workbench } from "./state/workbench.ts";

export async function saveBundle({ desk, service, notices }: Workbench): Promise<void> {
  await desk.flush();
  const job = desk.job();
  const pictures = new Map<string, Uint8Array>();
  for (const name of job.exhibits.flatMap(({ svg, png }) => [svg, png])) {
    const blob = await desk.store.blob(job.id, name);
    if (blob) pictures.set(name, await bytesOf(blob));
  }
  const recordings = new Map<string, Uint8Array>();
  for (const { id } of job.captures) {
    const file = await service.file(id);
    if (file) recordings.set(id, await bytesOf(file));
  }
  const bytes = await packBundle({ job, pictures, recordings });
  saveFile(new Blob([bytes.slice()], { type: "application/zip" }), `${job.name}.zip`);
  notices.say(`The job is saved as ${job.name}.zip.`);
}

const bytesOf = async (blob: Blob) => new Uint8Array(await blob.arrayBuffer());
