// The sample job: an invented car, simulated, with a dead and a sound catalyst to compare.

import { sampleJob, sampleTraces } from "../../../sample-traces/index.ts";
import { changeJob, changeVehicle, markSimulated } from "../../job/edits/make.ts";
import type { Ground } from "../core/ground.ts";
import type { Opening } from "./opening.ts";

/** Starts a job of its own; the one on the desk is put aside, saved. The last trace listed first is looked at. */
export async function openSampleJob(
  { desk, notices }: Pick<Ground, "desk" | "notices">,
  opening: Opening,
): Promise<void> {
  const [trace] = sampleTraces;
  if (!trace) return;
  const response = await fetch(trace.url).catch(() => null);
  if (!response?.ok) {
    notices.show({
      code: "unreadable",
      what: "The sample recording could not be loaded.",
      where: trace.file,
      remedy: "Reload the page; if that does not help, build it again.",
    });
    return;
  }
  const file = await response.blob();
  if (!(await desk.start())) return;
  desk.change((job, at) => changeJob(job, at, { name: sampleJob.name, notes: sampleJob.notes }));
  desk.change((job, at) => changeVehicle(job, at, { description: "Hatchback 1.6, simulated", codes: "P0420" }));
  if (!(await opening.open(file, trace.file))) return;
  for (const { id } of desk.job().captures) desk.change((job, at) => markSimulated(job, at, id));
}
