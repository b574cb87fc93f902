// Answers by their question: those that were given last in memory, those worth a reload beside the recording in storage.

import { identityOf, type Take } from "../../src/capture/model/take.ts";
import type { Engine } from "../held/engine.ts";
import type { Before } from "../protocol.ts";
import type { Answered, Asked, Version } from "../store/answers.ts";
import type { Recordings } from "./recordings.ts";

/** Undo and redo go to and fro between a few. */
const most = 8;

/** What is measured at every rest of the view is kept once it has rested so long, ms. */
const atRest = 1_500;

export interface Question {
  /** What is measured. */
  readonly what: "span" | "whole" | "healthy" | "comparable";
  readonly take: Take;
  /** All else that it depends on. */
  readonly given: unknown;
  /** Whether it is wanted after a reload: each such answer, or the last of its kind alone. */
  readonly isKept: boolean | "last";
}

export class AnswersAtHand {
  private readonly last = new Map<string, unknown>();
  private readonly engine: Engine;
  private readonly recordings: Recordings;
  /** What waits to be kept, by place. */
  private readonly waiting = new Map<string, ReturnType<typeof setTimeout>>();

  constructor(engine: Engine, recordings: Recordings) {
    this.engine = engine;
    this.recordings = recordings;
  }

  /** The same answer again where nothing changed, the program neither; else measured now. @throws what `measure` throws. */
  async answer<T>(question: Question, measure: () => Promise<T>): Promise<T> {
    const known = await this.known<T>(question);
    if (known !== null) return known;
    const answer = await measure();
    this.remember(askedBy(question).identity, answer);
    this.keep(question, answer);
    return answer;
  }

  /** What was answered before; null where that is not at hand. */
  async known<T>(question: Question): Promise<T | null> {
    const before = await this.before<T>(question);
    return before?.isCurrent ? before.answer : null;
  }

  /** The same, of this program or of another that was here before it. */
  async before<T>(question: Question): Promise<Before<T> | null> {
    const { identity } = askedBy(question);
    const atHand = this.last.get(identity);
    if (atHand) {
      this.remember(identity, atHand);
      return { answer: atHand as T, isCurrent: true };
    }
    const { version } = this.engine;
    const kept = version && (await this.kept(question));
    if (!kept || kept.by.shapes !== version.shapes) return null;
    const isCurrent = kept.by.sources === version.sources;
    if (isCurrent) this.remember(identity, kept.answer);
    return { answer: kept.answer as T, isCurrent };
  }

  private remember(identity: string, answer: unknown): void {
    this.last.delete(identity);
    this.last.set(identity, answer);
    for (const old of [...this.last.keys()].slice(0, -most)) this.last.delete(old);
  }

  /** What cannot be read is measured again. */
  private async kept(question: Question): Promise<Answered | null> {
    if (!question.isKept) return null;
    const found = this.engine.store?.answer(question.take.captureId, askedBy(question));
    return (await found?.catch(() => null)) ?? null;
  }

  private keep(question: Question, answer: unknown): void {
    const { version } = this.engine;
    if (version === null || !question.isKept) return;
    const asked = askedBy(question);
    const { captureId } = question.take;
    if (asked.place === undefined) return void this.write(captureId, asked, { by: version, answer });
    const key = `${captureId} ${asked.place}`;
    clearTimeout(this.waiting.get(key));
    const write = () => void this.write(captureId, asked, { by: version, answer });
    this.waiting.set(key, setTimeout(write, atRest));
  }

  /** Once the recording itself is kept; where that failed, it is measured again after a reload. */
  private async write(captureId: string, asked: Asked, answered: { by: Version; answer: unknown }): Promise<void> {
    const problem = await this.recordings.held(captureId)?.keeping;
    if (problem === null) await this.engine.store?.keepAnswer(captureId, asked, answered).catch(() => {});
  }
}

const askedBy = ({ what, take, given, isKept }: Question): Asked => ({
  identity: identityOf([what, take, given]),
  ...(isKept === "last" ? { place: `last ${what}` } : {}),
});
