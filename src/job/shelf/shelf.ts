// The shelf: known-good traces kept in this browser. Here lies the index; the samples are in the capture store.

import { createStore, del, entries, set } from "idb-keyval";
import { type Outcome, type Problem, ProblemError } from "../../problem.ts";
import { refused } from "../storage/refused.ts";
import { readShelfTrace, shelfText } from "./shelf-format.ts";
import type { ShelfTrace } from "./shelf-trace.ts";

export interface ShelfList {
  readonly traces: readonly ShelfTrace[];
  /** Entries that cannot be read; they stay where they are. */
  readonly problems: readonly Problem[];
}

export interface Shelf {
  /** Newest first. A trace that cannot be read is left where it is and told of. */
  list(): Promise<Outcome<ShelfList>>;
  /** @returns a Problem "storage-full" or "storage-denied"; what was kept before stays. */
  keep(trace: ShelfTrace): Promise<Outcome<null>>;
  remove(id: string): Promise<Outcome<null>>;
  /** Recordings that traces name, readable or not. */
  captureIds(): Promise<Outcome<readonly string[]>>;
}

/** @param name of the database; tests use their own. */
export function makeShelf(name = "tracewright"): Shelf {
  const store = createStore(`${name}-shelf`, "traces");
  return {
    list: () => guarded(async () => sorted(await entries<string, unknown>(store))),
    keep: (trace) => guarded(() => set(trace.id, shelfText(trace), store).then(() => null)),
    captureIds: () =>
      guarded(async () => (await entries<string, unknown>(store)).flatMap(([, text]) => capturesIn(String(text)))),
    remove: (id) => guarded(() => del(id, store).then(() => null)),
  };
}

/** SHA-256, hex. */
const capturesIn = (text: string): readonly string[] => text.match(/[0-9a-f]{64}/g) ?? [];

function sorted(all: readonly (readonly [string, unknown])[]): ShelfList {
  const read = all.map(([id, text]) => readShelfTrace(text, `shelf trace ${id}`));
  const traces = read.flatMap((one) => (one.ok ? [one.value] : []));
  return {
    traces: traces.sort((a, b) => b.keptAt.localeCompare(a.keptAt)),
    problems: read.flatMap((one) => (one.ok ? [] : [one.problem])),
  };
}

async function guarded<T>(work: () => Promise<T>): Promise<Outcome<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    return { ok: false, problem: error instanceof ProblemError ? error.problem : refused(error) };
  }
}
