// A signal cannot be sent to a worker: what is to be given up there is named by a ticket.

import { proxy, type Remote } from "comlink";
import type { Outcome } from "../../src/problem.ts";
import { holdLife } from "../life.ts";
import type { CaptureService, OnProgress, Turn, Urgency } from "../protocol.ts";

/** What can be given up: all that is measured in turn, and what is written. */
const inTurn = ["measure", "whole", "firstLook", "healthy", "comparable", "saveSpan"] as const;
type InTurn = Pick<CaptureService, (typeof inTurn)[number]>;

type Measure = (request: unknown, turn?: Partial<Turn>) => Promise<Outcome<unknown>>;
type SentMeasure = (
  request: unknown,
  urgency: Urgency | undefined,
  ticket: number,
  onProgress: OnProgress | null,
) => Promise<Outcome<unknown>>;

/** The service as it goes through a message port. */
export type SentService = Omit<CaptureService, keyof InTurn> &
  Record<keyof InTurn, SentMeasure> & {
    giveUp(ticket: number): void;
    /** See `life.ts`. */
    live(name: string): Promise<void>;
  };

/** In the worker. */
export function sentService(service: CaptureService): SentService {
  const underWay = new Map<number, AbortController>();
  const sent = (measure: Measure): SentMeasure => {
    return async (request, urgency, ticket, onProgress) => {
      const giving = new AbortController();
      underWay.set(ticket, giving);
      try {
        const turn = urgency ? { urgency } : {};
        return await measure(request, { ...turn, signal: giving.signal, onProgress: onProgress ?? undefined });
      } finally {
        underWay.delete(ticket);
      }
    };
  };
  const measures = inTurn.map((name) => [name, sent(service[name] as Measure)] as const);
  return {
    ...service,
    ...(Object.fromEntries(measures) as Record<keyof InTurn, SentMeasure>),
    giveUp: (ticket) => underWay.get(ticket)?.abort(),
    live: holdLife,
  };
}

/** Over all turns of this page. */
let tickets = 0;

/** On the page. */
export function turnsOf(remote: Remote<SentService>): InTurn {
  const measure = (name: keyof InTurn): Measure => {
    return async (request, { urgency, signal, onProgress } = {}) => {
      const ticket = ++tickets;
      const giveUp = () => void remote.giveUp(ticket);
      signal?.addEventListener("abort", giveUp);
      try {
        const asked = remote[name](request, urgency, ticket, onProgress ? proxy(onProgress) : null);
        if (signal?.aborted) giveUp();
        return await asked;
      } finally {
        signal?.removeEventListener("abort", giveUp);
      }
    };
  };
  return Object.fromEntries(inTurn.map((name) => [name, measure(name)])) as unknown as InTurn;
}
