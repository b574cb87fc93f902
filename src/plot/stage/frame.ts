// One place that waits for the animation frame, so that nothing is drawn twice in one.

/** Work that waits for a frame; a task queued twice runs once. */
export interface Frame {
  /** Runs in the coming frame; queued while a frame runs, it still runs in that one. */
  queue(task: () => void): void;
  /** Runs in the frame after the one that runs now: for movement. */
  next(task: () => void): void;
  drop(task: () => void): void;
}

export function makeFrame(request: (run: () => void) => void): Frame {
  const now = new Set<() => void>();
  const later = new Set<() => void>();
  let isWaiting = false;
  let isRunning = false;

  const wait = () => {
    if (isWaiting || isRunning) return;
    isWaiting = true;
    request(run);
  };
  const run = () => {
    isWaiting = false;
    isRunning = true;
    for (const task of later) now.add(task);
    later.clear();
    try {
      // A Set hands out what is added while it is walked: a view change and the drawing it causes share a frame.
      for (const task of now) {
        now.delete(task);
        task();
      }
    } finally {
      isRunning = false;
      if (now.size + later.size > 0) wait();
    }
  };
  return {
    queue: (task) => {
      now.add(task);
      wait();
    },
    next: (task) => {
      later.add(task);
      wait();
    },
    drop: (task) => {
      now.delete(task);
      later.delete(task);
    },
  };
}

/** The page's frame, shared by lanes and overview. */
export const frame = makeFrame((run) => requestAnimationFrame(run));
