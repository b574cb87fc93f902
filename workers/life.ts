// Whether a worker still lives: from its start it holds a lock, and whatever ends it lets go of that.

/** In the worker. Answers once it holds the lock of that name; where the browser has no locks its end stays unknown. */
export function holdLife(name: string): Promise<void> {
  return new Promise((held) => {
    if (!navigator.locks) return held();
    void navigator.locks.request(name, () => {
      held();
      return new Promise(() => {});
    });
  });
}

let started = 0;

/**
 * Where the worker was started.
 *
 * @param live  has the worker hold the lock.
 * @returns resolves when it is dead, or could not be started at all.
 */
export function endOf(worker: Worker, live: (name: string) => Promise<void>): Promise<void> {
  const name = `alive-${performance.timeOrigin}-${Math.random()}-${++started}`;
  return new Promise((ended) => {
    let isHeld = false;
    worker.addEventListener("error", () => {
      if (!isHeld) ended();
    });
    live(name).then(
      () => {
        isHeld = true;
        void navigator.locks?.request(name, { mode: "shared" }, () => ended());
      },
      () => {},
    );
  });
}
