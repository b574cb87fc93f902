// Storage that was emptied under the open page: what is at hand is kept anew, and the rest is told.

import { createEffect, on } from "solid-js";
import type { CaptureService } from "../../../workers/protocol.ts";
import type { Job } from "../../job/record/job.ts";
import type { Problem } from "../../problem.ts";
import type { JobDesk } from "./job-desk.ts";
import type { Notices } from "./notices.ts";

interface Hands {
  readonly desk: JobDesk;
  readonly service: Pick<CaptureService, "kept">;
  readonly notices: Notices;
}

/** The job on the desk has been saved anew by then. */
export function keepAnewWhereEmptied({ desk, service, notices }: Hands): void {
  const keepAnew = async ({ captures, exhibits }: Job) => {
    const kept = await Promise.all(captures.map(({ id }) => desk.keeping.follow(id, () => service.kept(id, true))));
    const lost = captures.filter((_, i) => kept[i] !== null).map(({ fileName }) => fileName);
    notices.show(emptied(lost, exhibits.length > 0));
  };
  createEffect(on(desk.emptied, () => void keepAnew(desk.job()), { defer: true }));
}

function emptied(lost: readonly string[], hasExhibits: boolean): Problem {
  const gone = [...lost, ...(hasExhibits ? ["the pictures of its exhibits"] : []), "other jobs", "the shelf"];
  return {
    code: "unreadable",
    what: "The browser's storage for this page was emptied while the page was open.",
    remedy: `This job was saved anew from what is at hand. Gone with the storage: ${gone.join(", ")}. Open recordings and bundles of jobs again.`,
  };
}
