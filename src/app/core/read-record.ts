// Job records read beside the page where they are large: of those only the job itself comes back to the page's thread.

import { readJob } from "../../job/record/format.ts";
import type { Job } from "../../job/record/job.ts";
import type { Outcome } from "../../problem.ts";

/** Characters that are parsed and checked in a few frames. */
const small = 300_000;

const recordWorker = () => new Worker(new URL("./record.worker.ts", import.meta.url), { type: "module" });

/** The same as `readJob`. A thread that cannot be started leaves it to the page. */
export async function readRecordBeside(text: string, where: string, start = recordWorker): Promise<Outcome<Job>> {
  if (text.length <= small) return readJob(text, where);
  const worker = start();
  const read = new Promise<Outcome<Job> | null>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<Outcome<Job>>) => resolve(data);
    worker.onerror = () => resolve(null);
    worker.onmessageerror = () => resolve(null);
  });
  worker.postMessage({ text, where });
  const outcome = await read.finally(() => worker.terminate());
  return outcome ?? readJob(text, where);
}
