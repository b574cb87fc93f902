// What is under way beside the reading of recordings, such as packing: how far it is, and the way out.

import { type Accessor, createSignal } from "solid-js";

export interface Work {
  /** "Packing Job.zip" */
  readonly says: string;
  /** Bytes; no total as long as it is not known. */
  readonly done: number;
  readonly total: number;
}

export interface UnderWay {
  readonly work: Accessor<Work | null>;
  /** Shows it until `task` ends; what is begun later is shown in its place, as long as that lasts. */
  follow<T>(says: string, task: (watched: Watched) => Promise<T>): Promise<T>;
  /** Gives up what is shown. */
  cancel(): void;
}

export interface Watched {
  readonly signal: AbortSignal;
  readonly onProgress: (done: number, total: number) => void;
}

export function createUnderWay(): UnderWay {
  const [all, setAll] = createSignal<readonly (Work & { readonly giving: AbortController })[]>([]);
  return {
    work: () => all().at(-1) ?? null,
    async follow(says, task) {
      const giving = new AbortController();
      const put = (done: number, total: number) => {
        const now = { says, done, total, giving };
        setAll((before) => before.map((one) => (one.giving === giving ? now : one)));
      };
      setAll((before) => [...before, { says, done: 0, total: 0, giving }]);
      try {
        return await task({ signal: giving.signal, onProgress: put });
      } finally {
        setAll((before) => before.filter((one) => one.giving !== giving));
      }
    },
    cancel: () => all().at(-1)?.giving.abort(),
  };
}
