// The job as one zip, with its recordings and pictures, handed to the browser to be saved.

import { packFiles } from "../../../workers/client.ts";
import { bundleEntries, heaviestBundle, pictureNames } from "../../job/bundle/bundle.ts";
import type { Job } from "../../job/record/job.ts";
import type { Problem } from "../../problem.ts";
import type { Ground } from "../core/ground.ts";
import { saveFile } from "../parts/save-file.ts";

type Hands = Pick<Ground, "desk" | "service" | "notices" | "underWay">;

export async function saveBundle(hands: Hands): Promise<void> {
  const { desk, notices, underWay } = hands;
  await desk.flush();
  const job = desk.job();
  const pictures = new Map<string, Blob>();
  const missing: string[] = [];
  for (const name of pictureNames(job)) {
    const blob = await desk.store.blob(job.id, name).catch(() => null);
    if (blob) pictures.set(name, blob);
    else missing.push(`exhibit ${name}`);
  }
  const { recordings, left } = await recordingsOf(job, hands);
  const out = [...left, ...missing];
  if (out.length > 0) notices.show(leftOut(out));
  const entries = bundleEntries({ job, pictures, recordings });
  const packed = await underWay.follow(`Packing ${job.name}.zip`, (watched) => packFiles(entries, watched));
  if (!packed.ok) return notices.show(packed.problem);
  saveFile(packed.value, `${job.name}.zip`);
  // Whether it reached the disk, only the browser knows.
  notices.say(
    `${job.name}.zip is packed, and handed to the browser${out.length > 0 ? `, without ${out.join(", ")}` : ""}.`,
  );
}

/** The recordings whose bytes are at hand and what they were, as many as a bundle may hold; the others by name. */
async function recordingsOf(job: Job, { service }: Hands) {
  const recordings = new Map<string, Blob>();
  const left: string[] = [];
  let room = heaviestBundle;
  for (const { id, fileName } of job.captures) {
    const file = await service.wholeFile(id);
    if (file.ok && file.value.size <= room) {
      recordings.set(id, file.value);
      room -= file.value.size;
    } else left.push(fileName);
  }
  return { recordings, left };
}

const leftOut = (names: readonly string[]): Problem => ({
  code: "unreadable",
  what: `The bundle will not hold ${names.join(", ")}: not kept here any more, not as opened, or beyond 16 GB in all.`,
  remedy: "Open those files again and save the bundle once more; give larger ones beside it.",
});
