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

/** One that holds no lock after so long, ms, will not: it died as it started. Loading it over a slow line takes less. */
const patience = 90_000;

export interface LifeSeen {
  /** It holds the lock, and its end will be seen; or that cannot be, for there are no locks. */
  readonly watched: Promise<void>;
  /** Resolves when it is dead, or could not be started at all. */
  readonly end: Promise<void>;
}

/**
 * Where the worker was started.
 *
 * @param live  has the worker hold the lock. One that ends before it does is taken for dead only after `wait`: ask it nothing before.
 */
export function lifeOf(worker: Worker, live: (name: string) => Promise<void>, wait = patience): LifeSeen {
  const name = `alive-${performance.timeOrigin}-${Math.random()}-${++started}`;
  const held = live(name);
  const end = new Promise<void>((ended) => {
    let isHeld = false;
    const unlessHeld = () => {
      if (!isHeld) ended();
    };
    worker.addEventListener("error", unlessHeld);
    const late = setTimeout(unlessHeld, wait);
    held.then(
      () => {
        isHeld = true;
        clearTimeout(late);
        void navigator.locks?.request(name, { mode: "shared" }, () => ended());
      },
      () => clearTimeout(late),
    );
  });
  return { watched: held.catch(() => {}), end };
}
