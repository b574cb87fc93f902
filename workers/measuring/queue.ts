// The one line in which everything that is measured waits for a thread: the most urgent first.

import { ProblemError } from "../../src/problem.ts";
import { type Turn, type Urgency, urgencies } from "../protocol.ts";

/** Where one thing at a time is measured. */
export interface Thread {
  /** Ends what is under way there; what it holds is gone. */
  stop(): void;
}

export interface Task<B extends Thread, T> extends Pick<Turn, "urgency" | "signal"> {
  /** What it is about: a thread that worked on the same before is preferred, since it remembers what it measured. */
  readonly about: string;
  work(thread: B): Promise<T>;
}

interface Waiting<B extends Thread> extends Omit<Task<B, unknown>, "work"> {
  work(thread: B): Promise<unknown>;
  done(value: unknown): void;
  failed(reason: unknown): void;
}

interface Place<B extends Thread> {
  readonly thread: B;
  /** What it worked on, the last first. */
  knows: readonly string[];
  task: Waiting<B> | null;
}

/**
 * A task goes to a free thread by urgency, then in the order in which it came. Where none is free, a more urgent one takes
 * the place of the least urgent under way, which waits again and begins anew. A signal is the one way to give a task up.
 */
export class MeasuringQueue<B extends Thread> {
  private readonly places: readonly Place<B>[];
  private line: readonly Waiting<B>[] = [];

  /** @param threads  at least one. */
  constructor(threads: readonly B[]) {
    this.places = threads.map((thread) => ({ thread, knows: [], task: null }));
  }

  /** @throws ProblemError "cancelled" where it was given up; what the work throws. */
  run<T>(task: Task<B, T>): Promise<T> {
    return new Promise<T>((resolve, reject) => {
      const giveUp = () => this.giveUp(waiting);
      const leave = () => task.signal?.removeEventListener("abort", giveUp);
      const waiting: Waiting<B> = {
        ...task,
        work: (thread) => task.work(thread),
        done: (value) => {
          leave();
          resolve(value as T);
        },
        failed: (reason) => {
          leave();
          reject(reason);
        },
      };
      if (task.signal?.aborted) return reject(new ProblemError(givenUp));
      task.signal?.addEventListener("abort", giveUp);
      this.line = [...this.line, waiting];
      this.begin();
    });
  }

  private begin(): void {
    for (;;) {
      const [next] = [...this.line].sort((a, b) => rank(a) - rank(b));
      const place = next && (this.free(next.about) ?? this.freed(next.urgency));
      if (!next || !place) return;
      this.line = this.line.filter((one) => one !== next);
      void this.work(place, next);
    }
  }

  /** A free thread: the one that knows the subject, else the one that knows least. */
  private free(about: string): Place<B> | undefined {
    const free = this.places.filter(({ task }) => task === null);
    const [least] = [...free].sort((a, b) => a.knows.length - b.knows.length);
    return free.find(({ knows }) => knows.includes(about)) ?? least;
  }

  /** The thread of what is least urgent, where that is less urgent than this; its task waits again, before its like. */
  private freed(urgency: Urgency): Place<B> | undefined {
    const [least] = [...this.places].sort((a, b) => rank(b.task!) - rank(a.task!));
    if (!least?.task || rank(least.task) <= urgencies.indexOf(urgency)) return undefined;
    this.line = [least.task, ...this.line];
    this.stop(least);
    return least;
  }

  private async work(place: Place<B>, task: Waiting<B>): Promise<void> {
    place.task = task;
    place.knows = [task.about, ...place.knows.filter((one) => one !== task.about)].slice(0, mostKnown);
    try {
      const value = await task.work(place.thread);
      if (place.task === task) task.done(value);
    } catch (error) {
      if (place.task === task) task.failed(error);
    }
    if (place.task !== task) return;
    place.task = null;
    this.begin();
  }

  private giveUp(task: Waiting<B>): void {
    this.line = this.line.filter((one) => one !== task);
    const place = this.places.find((one) => one.task === task);
    task.failed(new ProblemError(givenUp));
    if (!place) return;
    this.stop(place);
    this.begin();
  }

  private stop(place: Place<B>): void {
    place.task = null;
    place.knows = [];
    place.thread.stop();
  }
}

/** Subjects that a thread is taken to remember. */
const mostKnown = 6;

const rank = ({ urgency }: { readonly urgency: Urgency }): number => urgencies.indexOf(urgency);

const givenUp = {
  code: "cancelled",
  what: "This measurement was given up.",
  remedy: "Nothing to do: where a newer one was asked for, it follows.",
} as const;
