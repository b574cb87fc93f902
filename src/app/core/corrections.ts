// What the worker must know of the settings of a recording's channels.

import type { Corrections } from "../../capture/model/take.ts";
import type { BenchState } from "../../job/record/job.ts";

export function correctionsOf(channels: BenchState["channels"]): Corrections {
  const entries = Object.entries(channels).map(
    ([id, { label: _, filter: __, ...correction }]) => [id, correction] as const,
  );
  return Object.fromEntries(entries);
}
