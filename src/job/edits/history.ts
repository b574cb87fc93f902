// Undo and redo over any immutable state. Pure: the page keeps a History and replaces it.

export interface History<T> {
  readonly past: readonly T[];
  readonly present: T;
  readonly future: readonly T[];
  /** Edits that follow each other with the same key are one step: a drag, a typed word. Null: never joined. */
  readonly key: string | null;
}

const longest = 200;

/** A history with nothing to undo. */
export function begin<T>(present: T): History<T> {
  return { past: [], present, future: [], key: null };
}

/**
 * Puts `next` in force. What was undone before is dropped, as everywhere.
 *
 * @param key joins this edit to the one before it when that carried the same key.
 */
export function commit<T>(history: History<T>, next: T, key: string | null = null): History<T> {
  if (next === history.present) return history;
  if (key !== null && key === history.key) return { ...history, present: next, future: [] };
  return { past: [...history.past, history.present].slice(-longest), present: next, future: [], key };
}

/** One step back; unchanged at the beginning. */
export function undo<T>(history: History<T>): History<T> {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return {
    past: history.past.slice(0, -1),
    present: before,
    future: [history.present, ...history.future],
    key: null,
  };
}

/** One step forward again; unchanged at the end. */
export function redo<T>(history: History<T>): History<T> {
  const [after, ...future] = history.future;
  if (after === undefined) return history;
  return { past: [...history.past, history.present], present: after, future, key: null };
}

/** Ends a joined step: the next edit is a step of its own even with the same key. */
export function settleStep<T>(history: History<T>): History<T> {
  return history.key === null ? history : { ...history, key: null };
}
