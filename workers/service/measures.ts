// What is measured of a take: its samples are brought when their turn has come.

import { identityOf, type Take } from "../../src/capture/model/take.ts";
import { isJudged, isSensor } from "../../src/exhaust/terms/channels.ts";
import { settle } from "../../src/problem.ts";
import type { Engine, Subject } from "../held/engine.ts";
import type { TakenCapture, Wanted } from "../held/taken-capture.ts";
import { lineUp, lineUpRun, nextCrossing } from "../measuring/lining-up.ts";
import type { CaptureService } from "../protocol.ts";
import type { Recordings } from "./recordings.ts";

type Measures = Pick<CaptureService, "measure" | "whole" | "comparable" | "lineUp" | "lineUpRun" | "firstCrossing">;

export function createMeasures(engine: Engine, recordings: Recordings): Measures {
  return {
    measure: ({ take, span, limits }, turn) =>
      settle(async () => {
        const taken = recordings.take(take);
        const wanted = { span, channels: isSensor };
        const stored = taken.stored(wanted);
        if (stored) return engine.measureStored(stored, taken.bank, { span, limits }, turn);
        return engine.measure(subjectOf(take, taken, wanted), { span, limits }, turn);
      }),

    whole: ({ take, choices }, turn) =>
      settle(async () => {
        const taken = recordings.take(take);
        const wanted = { channels: isJudged };
        const means = taken.meansOver(wanted);
        const found = await engine.whole(subjectOf(take, taken, wanted), choices, turn);
        return means ? { ...found, means } : found;
      }),

    comparable: ({ take, choices }, turn) =>
      settle(async () =>
        engine.comparable(subjectOf(take, recordings.take(take), { channels: isJudged }), choices, turn),
      ),

    lineUp: (request) => settle(() => lineUp((take) => recordings.find(take), request)),

    lineUpRun: (request) => settle(() => lineUpRun((take) => recordings.find(take), request)),

    firstCrossing: ({ take, ...request }) => settle(() => nextCrossing(recordings.take(take), request)),
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
