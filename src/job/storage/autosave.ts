// Saves by itself: soon after the last change, now and then while one follows the other, at once when the page goes away,
// again and again while it fails, one write at a time.

export type SaveState = "saved" | "waiting" | "saving" | "failed";

export interface Autosave<T> {
  /** Something changed: `value` is to be kept. */
  note(value: T): void;
  /** Writes what waits, now. False where it could not be kept. */
  flush(): Promise<boolean>;
  /** Gives up what waits. */
  drop(): void;
  stop(): void;
}

/**
 * After a change; at the latest after the first that waits, for who writes without a pause loses no more by a crash; after the
 * first failure, each further one doubling the wait, up to the last. ms
 */
const usual = { delay: 400, longestDelay: 2_000, retry: 2_000, longestRetry: 60_000 };

/** @param save  keeps a value; a rejection leaves it waiting, and it is tried again. */
export function makeAutosave<T>(
  save: (value: T) => Promise<void>,
  onState: (state: SaveState) => void,
  { delay, longestDelay, retry, longestRetry } = usual,
): Autosave<T> {
  let waiting: { value: T } | null = null;
  /** When the first change came that waits. */
  let since = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing: Promise<unknown> = Promise.resolve();
  let wait = retry;

  const later = (ms: number) => {
    clearTimeout(timer);
    timer = setTimeout(flush, ms);
  };
  const write = async (): Promise<boolean> => {
    const next = waiting;
    if (!next) return true;
    waiting = null;
    onState("saving");
    try {
      await save(next.value);
      wait = retry;
      onState(waiting ? "waiting" : "saved");
      return true;
    } catch {
      waiting ??= next;
      onState("failed");
      later(wait);
      wait = Math.min(2 * wait, longestRetry);
      return false;
    }
  };
  const flush = (): Promise<boolean> => {
    clearTimeout(timer);
    const written = writing.then(write);
    writing = written;
    return written;
  };
  return {
    note(value) {
      if (!waiting) since = performance.now();
      waiting = { value };
      onState("waiting");
      later(Math.min(delay, Math.max(0, since + longestDelay - performance.now())));
    },
    flush,
    drop() {
      clearTimeout(timer);
      waiting = null;
      onState("saved");
    },
    stop: () => clearTimeout(timer),
  };
}
