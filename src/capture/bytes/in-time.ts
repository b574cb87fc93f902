// What the browser now and then never answers.

/**
 * The answer, or null where it takes too long. What comes later goes unheard.
 *
 * @param patience  ms. @throws what `work` throws in time.
 */
export function inTime<T>(work: Promise<T>, patience: number): Promise<T | null> {
  let timer: ReturnType<typeof setTimeout>;
  const late = new Promise<null>((resolve) => {
    timer = setTimeout(resolve, patience, null);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}
