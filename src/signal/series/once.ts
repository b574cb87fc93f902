// Answers that are looked for once: several readings of one span ask for the same crossings, extremes and noise.

/** Rules that an answer is kept for, of each series; more are only met where limits are tried out by hand. */
const mostRules = 64;

/**
 * The same function, whose answer is kept as long as what it is about lives.
 *
 * @param tell  of samples, a series or a time base: none is changed once it is measured.
 */
export function onceOf<Of extends object, T>(tell: (of: Of) => T): (of: Of) => T {
  const told = new WeakMap<Of, { readonly answer: T }>();
  return (of) => {
    let kept = told.get(of);
    if (kept === undefined) {
      kept = { answer: tell(of) };
      told.set(of, kept);
    }
    return kept.answer;
  };
}

/** The same for a function that answers by numbers as well. */
export function onceWith<Of extends object, T>(tell: (of: Of, ...by: number[]) => T): (of: Of, ...by: number[]) => T {
  const told = onceOf((_: Of) => new Map<string, T>());
  return (of, ...by) => {
    const kept = told(of);
    const key = by.join();
    let answer = kept.get(key);
    if (answer === undefined) {
      answer = tell(of, ...by);
      if (kept.size >= mostRules) kept.delete(kept.keys().next().value!);
      kept.set(key, answer);
    }
    return answer;
  };
}
