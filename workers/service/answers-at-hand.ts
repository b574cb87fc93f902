// Answers by their identity: those that were given last in memory, those worth a reload beside the recording in storage.

import { identityOf, type Take } from "../../src/capture/model/take.ts";
import type { Engine } from "../held/engine.ts";
import type { Recordings } from "./recordings.ts";

/** Undo and redo go to and fro between a few. */
const most = 8;

export interface Question {
  /** What is measured. */
  readonly what: "span" | "whole" | "healthy" | "comparable";
  readonly take: Take;
  /** All else that it depends on. */
  readonly given: unknown;
  /** Whether it is wanted after a reload. */
  readonly isKept: boolean;
}

export class AnswersAtHand {
  private readonly last = new Map<string, unknown>();
  private readonly engine: Engine;
  private readonly recordings: Recordings;

  constructor(engine: Engine, recordings: Recordings) {
    this.engine = engine;
    this.recordings = recordings;
  }

  /** The same answer again where nothing changed, the program neither; else measured now. @throws what `measure` throws. */
  async answer<T>(question: Question, measure: () => Promise<T>): Promise<T> {
    const known = await this.known<T>(question);
    if (known !== null) return known;
    const answer = await measure();
    const { take } = question;
    const identity = this.identity(question);
    this.remember(identity, answer);
    if (this.isStored(question)) void this.keep(take.captureId, identity, answer);
    return answer;
  }

  /** What was answered before; null where that is not at hand. */
  async known<T>(question: Question): Promise<T | null> {
    const identity = this.identity(question);
    const { captureId } = question.take;
    const known = this.last.get(identity) ?? (this.isStored(question) ? await this.kept(captureId, identity) : null);
    if (!known) return null;
    this.remember(identity, known);
    return known as T;
  }

  private identity({ what, take, given }: Question): string {
    return identityOf([this.engine.version, what, take, given]);
  }

  private isStored({ isKept }: Question): boolean {
    return isKept && this.engine.version !== null && this.engine.store !== null;
  }

  private remember(identity: string, answer: unknown): void {
    this.last.delete(identity);
    this.last.set(identity, answer);
    for (const old of [...this.last.keys()].slice(0, -most)) this.last.delete(old);
  }

  /** What cannot be read is measured again. */
  private async kept(captureId: string, identity: string): Promise<unknown> {
    return this.engine.store?.answer(captureId, identity).catch(() => null);
  }

  /** Once the recording itself is kept; where there is no room, it is measured again after a reload. */
  private async keep(captureId: string, identity: string, answer: unknown): Promise<void> {
    const problem = await this.recordings.kept(captureId);
    if (problem === null) await this.engine.store?.keepAnswer(captureId, identity, answer).catch(() => {});
  }
}
