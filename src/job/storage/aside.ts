// Records that cannot be read: set aside under their own name, so that they stand in nobody's way and can still be saved
// as a file or deleted.

import { createStore, del, entries, set, type UseStore } from "idb-keyval";
import type { Problem } from "../../problem.ts";

export interface SetAside {
  readonly id: string;
  readonly problem: Problem;
  /** What lay in storage, as it was. */
  readonly text: string;
}

export interface Aside {
  /** Takes a record out of where the jobs lie. */
  put(id: string, text: string, problem: Problem): Promise<void>;
  list(): Promise<readonly SetAside[]>;
  remove(id: string): Promise<void>;
}

export function makeAside(name: string, jobs: UseStore): Aside {
  const store = createStore(`${name}-aside`, "records");
  return {
    async put(id, text, problem) {
      await set(id, { problem, text: String(text) }, store);
      await del(id, jobs);
    },
    async list() {
      const all = await entries<string, Omit<SetAside, "id">>(store);
      return all.map(([id, one]) => ({ id, ...one }));
    },
    remove: (id) => del(id, store),
  };
}
