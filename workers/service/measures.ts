// What is measured of a take: its samples are brought when their turn has come.

import { identityOf, type Take } from "../../src/capture/model/take.ts";
import type { Analysis } from "../../src/exhaust/terms/analysis.ts";
import { isJudged, isSensor } from "../../src/exhaust/terms/channels.ts";
import { settle } from "../../src/problem.ts";
import type { Engine, Subject } from "../held/engine.ts";
import type { TakenCapture, Wanted } from "../held/taken-capture.ts";
import { lineUp, lineUpRun, nextCrossing } from "../measuring/lining-up.ts";
import type { CaptureService, WholeReadings } from "../protocol.ts";
import { AnswersAtHand } from "./answers-at-hand.ts";
import type { Recordings } from "./recordings.ts";

type Measures = Pick<
  CaptureService,
  | "measure"
  | "whole"
  | "wholeBefore"
  | "firstLook"
  | "healthy"
  | "comparable"
  | "lineUp"
  | "lineUpRun"
  | "firstCrossing"
>;

export function createMeasures(engine: Engine, recordings: Recordings): Measures {
  const answers = new AnswersAtHand(engine, recordings);
  return {
    measure: ({ take, ...rule }, turn) =>
      settle(async () => {
        const taken = recordings.take(take);
        const question = { what: "span", take, given: rule, isKept: taken.isAll(rule.span) || "last" } as const;
        return answers.answer(question, async () => {
          const wanted = { span: rule.span, channels: rule.withLevels ? () => true : isSensor };
          const stored = taken.stored(wanted);
          if (stored) return engine.measureStored(stored, taken.bank, rule, turn);
          return engine.measure(subjectOf(take, taken, wanted), rule, turn);
        });
      }),

    ...ofWhole(engine, recordings, answers),

    healthy: ({ take, ...rule }, turn) =>
      settle(async () => {
        const taken = recordings.take(take);
        return answers.answer({ what: "healthy", take, given: rule, isKept: "last" }, () =>
          engine.healthy(subjectOf(take, taken, { channels: isJudged }), rule, turn),
        );
      }),

    comparable: ({ take, choices }, turn) =>
      settle(async () => {
        const taken = recordings.take(take);
        const question = { take, given: choices, isKept: true };
        return answers.answer({ ...question, what: "comparable" }, async () => {
          const known = await answers.known<Analysis>({ ...question, what: "whole" });
          return engine.comparable(subjectOf(take, taken, { channels: isJudged }), choices, turn, known);
        });
      }),

    lineUp: (request) => settle(() => lineUp((take) => recordings.find(take), request)),

    lineUpRun: (request) => settle(() => lineUpRun((take) => recordings.find(take), request)),

    firstCrossing: ({ take, ...request }) => settle(() => nextCrossing(recordings.take(take), request)),
  };
}

/** What is read of the whole recording: now, at some earlier time, and a first look beforehand. */
function ofWhole(
  engine: Engine,
  recordings: Recordings,
  answers: AnswersAtHand,
): Pick<Measures, "whole" | "wholeBefore" | "firstLook"> {
  return {
    whole: ({ take, choices }, turn) =>
      settle(async () => {
        const taken = recordings.take(take);
        return answers.answer({ what: "whole", take, given: choices, isKept: true }, async () => {
          const wanted = { channels: isJudged };
          const means = taken.meansOver(wanted);
          const found = await engine.whole(subjectOf(take, taken, wanted), choices, turn);
          return means ? { ...found, means } : found;
        });
      }),

    async wholeBefore({ take, choices }) {
      if (!recordings.find(take)) return null;
      return answers.before<WholeReadings>({ what: "whole", take, given: choices, isKept: true });
    },

    firstLook: ({ take, choices }, turn) =>
      settle(async () => {
        const taken = recordings.take(take);
        const wanted = { channels: isJudged };
        // Edits name lift-offs by where they were found at every sample.
        const isEdited = [choices.edits, choices.stretches].some((edits = []) => edits.length > 0);
        if (isEdited || taken.meansOver(wanted)) return null;
        return engine.firstLook(subjectOf(take, taken, wanted), choices, turn);
      }),
  };
}

/** Those channels of a take that are wanted. */
function subjectOf(take: Take, taken: TakenCapture, wanted: Required<Pick<Wanted, "channels">> & Wanted): Subject {
  return {
    identity: identityOf(take),
    bank: taken.bank,
    async bring(onShare) {
      const capture = await taken.view({ ...wanted, onShare });
      return { ...capture, channels: capture.channels.filter(wanted.channels) };
    },
  };
}
