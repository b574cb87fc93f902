// The rear that a sound catalyst would have given, for a capture that was analysed before: its fit is taken as it is.

import type { Capture } from "../capture/model/capture.ts";
import { spanOf } from "./analyse.ts";
import { type HealthyTrace, healthyOf } from "./store/healthy.ts";
import type { Analysis, AnalysisChoices } from "./terms/analysis.ts";
import { bankOf, channelsOf } from "./terms/channels.ts";
import { limitsInForce } from "./terms/limits.ts";
import type { StoreStudy } from "./terms/store-study.ts";

export type Fitted = Pick<Analysis, "awake" | "warmth"> & { readonly storeStudy: StoreStudy };

/** @param fitted  of the same capture and choices. @throws RangeError where it is not: nothing of this capture can be driven. */
export function healthyTrace(
  capture: Capture,
  choices: AnalysisChoices,
  { storeStudy, ...state }: Fitted,
): HealthyTrace {
  const channels = channelsOf(capture, bankOf(capture, choices.bank));
  const input = {
    channels,
    span: spanOf(capture),
    ...state,
    limits: limitsInForce(choices.limits),
    litres: choices.litres ?? null,
  };
  const trace = healthyOf(input, storeStudy);
  if (!trace) throw new RangeError("the fit is not of this capture");
  return trace;
}
