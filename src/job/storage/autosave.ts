// Saves by itself: soon after the last change, at once when the page goes away, again and again while it fails, one write
// at a time.

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

/** After a change, and after the first failure; each further failure doubles the wait, up to the last. ms */
const usual = { delay: 400, retry: 2_000, longestRetry: 60_000 };

/** @param save  keeps a value; a rejection leaves it waiting, and it is tried again. */
export function makeAutosave<T>(
  save: (value: T) => Promise<void>,
  onState: (state: SaveState) => void,
  { delay, retry, longestRetry } = usual,
): Autosave<T> {
  let waiting: { value: T } | null = null;
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
      waiting = { value };
      onState("waiting");
      later(delay);
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
