// What can go wrong for the user, as plain data that crosses threads, and the one error that carries it.

export type ProblemCode =
  | "empty"
  | "not-a-recording"
  /** Neither text nor any open format: raw numbers, perhaps. */
  | "unknown-form"
  | "no-numbers"
  | "too-few-rows"
  | "no-time"
  /** More rows than may go without asking would fall out, by their times. */
  | "rows-lost"
  | "bad-layout"
  | "damaged"
  | "too-large"
  | "unreadable"
  | "cancelled"
  | "wrong-choice"
  | "unclear"
  | "storage-full"
  | "storage-denied"
  | "newer-version"
  | "nothing-to-measure"
  | "not-possible-here"
  | "fault";

export interface Problem {
  /** Closed set; tests compare this. */
  readonly code: ProblemCode;
  /** One sentence: what happened. */
  readonly what: string;
  /** One sentence: what the user can do now. */
  readonly remedy: string;
  /** "capture.csv, line 12, column 3" */
  readonly where?: string;
}

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem };

/** The user's trouble, as opposed to a bug: carries a Problem up to where it can be shown. */
export class ProblemError extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.what);
    this.name = "ProblemError";
    this.problem = problem;
  }
}

/** Runs `work`; a ProblemError becomes a plain value, a bug is thrown on. */
export async function settle<T>(work: () => T | Promise<T>): Promise<Outcome<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    if (error instanceof ProblemError) return { ok: false, problem: error.problem };
    throw error;
  }
}
