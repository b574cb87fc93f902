// A capture worker that is started again when it dies: what was at hand is brought back, and what was asked is asked again.

import { proxy, type Remote, releaseProxy, wrap } from "comlink";
import type { ReadChoices } from "../src/capture/model/reader.ts";
import { type Problem, ProblemError } from "../src/problem.ts";
import { lifeOf } from "./life.ts";
import type { SentService } from "./service/tickets.ts";

interface Life {
  readonly remote: Remote<SentService>;
  isOver: boolean;
  /** Nothing is asked before: what it dies of would not be seen. */
  readonly watched: Promise<void>;
  readonly end: Promise<typeof dead>;
  stop(): void;
}

const dead = Symbol("dead");

/** A recording that the worker has at hand. */
interface AtHand {
  readonly file: Blob | null;
  readonly name: string;
  readonly choices: ReadChoices;
}

export interface Revived {
  /**
   * Asks the worker that lives; once more where it died under it.
   *
   * @throws ProblemError "fault" where it died again, or at once where it is not to be asked again; what the call throws.
   */
  ask<T>(call: (remote: Remote<SentService>) => Promise<T>, again?: boolean): Promise<T>;
  /** It is brought back, out of storage or out of its file, when the worker has died. */
  remember(captureId: string, recording: AtHand): void;
  forget(captureId: string): void;
  close(): void;
}

/** @param onRevived  told when a worker had died and another has all that was at hand; with a problem where it has not. */
export function revivedWorker(start: () => Worker, onRevived: (problem: Problem | null) => void): Revived {
  const atHand = new Map<string, AtHand>();
  let current = Promise.resolve(begin());

  function begin(): Life {
    const worker = start();
    const remote = wrap<SentService>(worker);
    const seen = lifeOf(worker, (name) => remote.live(name));
    const end = seen.end.then((): typeof dead => {
      life.isOver = true;
      return dead;
    });
    const stop = () => {
      remote[releaseProxy]();
      worker.terminate();
    };
    const life: Life = { remote, isOver: false, watched: seen.watched, end, stop };
    return life;
  }

  /** The next one begins when it is asked: a worker that cannot be started is not tried for ever. */
  async function living(): Promise<Life> {
    const mine = current;
    if (!(await mine).isOver) return mine;
    if (current === mine) current = revive();
    return current;
  }

  async function revive(): Promise<Life> {
    const life = begin();
    let problem: Problem | null = null;
    await Promise.race([life.watched, life.end]);
    for (const [id, one] of [...atHand]) {
      atHand.delete(id); // what kills the worker that brings it back is not brought back again
      const brought = await Promise.race([broughtBack(life.remote, id, one), life.end]);
      if (brought === dead) return life; // over already
      if (brought) problem = brought;
      else atHand.set(id, one);
    }
    if (!life.isOver) onRevived(problem);
    return life;
  }

  return {
    async ask(call, again = true) {
      for (let tries = 0; ; tries++) {
        const { remote, watched, end } = await living();
        await Promise.race([watched, end]);
        const answer = await Promise.race([call(remote), end]);
        if (answer !== dead) return answer;
        if (tries > 0 || !again) throw new ProblemError(stopped);
      }
    },
    remember: (id, recording) => void atHand.set(id, recording),
    forget: (id) => void atHand.delete(id),
    close: () => void current.then(({ stop }) => stop()),
  };
}

/** @returns why it is not at hand any more. */
async function broughtBack(remote: Remote<SentService>, id: string, { file, name, choices }: AtHand) {
  const stored = await remote.reopen(id, choices);
  if (stored.ok) return null;
  if (!file) return stored.problem;
  const opened = await remote.open(
    { file, name, choices },
    proxy(() => {}),
  );
  return opened.ok ? null : opened.problem;
}

const stopped: Problem = {
  code: "fault",
  what: "The part of the program that reads recordings has stopped, and was started again.",
  remedy:
    "What was saved is there. If the same file stops it again, the browser has not the memory for it: open a shorter part.",
};
