// Saves by itself: soon after the last change, at once when the page goes away, one write at a time.

export type SaveState = "saved" | "waiting" | "saving" | "failed";

export interface Autosave<T> {
  /** Something changed: `value` is to be kept. */
  note(value: T): void;
  /** Writes what waits, now. */
  flush(): Promise<void>;
  stop(): void;
}

/**
 * @param save    keeps a value; a rejection leaves it waiting, and the next change or flush tries again.
 * @param delayMs from the last change to the write.
 */
export function makeAutosave<T>(
  save: (value: T) => Promise<void>,
  onState: (state: SaveState) => void,
  delayMs = 400,
): Autosave<T> {
  let waiting: { value: T } | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing: Promise<void> = Promise.resolve();

  const write = async () => {
    const next = waiting;
    if (!next) return;
    waiting = null;
    onState("saving");
    try {
      await save(next.value);
      onState(waiting ? "waiting" : "saved");
    } catch {
      waiting ??= next;
      onState("failed");
    }
  };
  const flush = () => {
    clearTimeout(timer);
    writing = writing.then(write);
    return writing;
  };
  return {
    note(value) {
      waiting = { value };
      onState("waiting");
      clearTimeout(timer);
      timer = setTimeout(flush, delayMs);
    },
    flush,
    stop: () => clearTimeout(timer),
  };
}
