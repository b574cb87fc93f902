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
  /** Shows it until `task` ends; what is begun later is shown in its place. */
  follow<T>(says: string, task: (watched: Watched) => Promise<T>): Promise<T>;
  /** Gives up what is shown. */
  cancel(): void;
}

export interface Watched {
  readonly signal: AbortSignal;
  readonly onProgress: (done: number, total: number) => void;
}

export function createUnderWay(): UnderWay {
  const [work, setWork] = createSignal<Work | null>(null);
  let giving = new AbortController();
  return {
    work,
    async follow(says, task) {
      const mine = new AbortController();
      giving = mine;
      setWork({ says, done: 0, total: 0 });
      const onProgress = (done: number, total: number) => {
        if (giving === mine) setWork({ says, done, total });
      };
      try {
        return await task({ signal: mine.signal, onProgress });
      } finally {
        if (giving === mine) setWork(null);
      }
    },
    cancel: () => giving.abort(),
  };
}
