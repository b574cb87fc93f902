// What all subjects are built on.

import type { Accessor } from "solid-js";
import type { CaptureService, CaptureSummary } from "../../../workers/protocol.ts";
import type { Remark } from "../../capture/model/capture.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import type { Bench } from "./bench.ts";
import type { Captures } from "./captures.ts";
import type { Companions } from "./companions.ts";
import { subject } from "./context.ts";
import type { JobDesk } from "./job-desk.ts";
import type { Notices } from "./notices.ts";
import type { Readings } from "./readings.ts";
import type { Shown } from "./shown.ts";
import type { Traces } from "./traces.ts";
import type { UnderWay } from "./under-way.ts";
import type { ViewState } from "./view.ts";
import type { WritingState } from "./writing.ts";

export interface Ground extends WritingState {
  readonly service: CaptureService;
  readonly notices: Notices;
  readonly underWay: UnderWay;
  readonly desk: JobDesk;
  readonly captures: Captures;
  readonly bench: Bench;
  /** The recording on the desk, corrections applied; null while none is at hand. */
  readonly summary: Accessor<CaptureSummary | null>;
  /** What is to be warned of about it, as corrected. */
  readonly warnings: Accessor<readonly Remark[]>;
  readonly captureId: Accessor<string | null>;
  chooseCapture(captureId: string | null): void;
  readonly view: ViewState;
  /** A span chosen by hand; readings follow it instead of the view. */
  readonly span: Accessor<Span | null>;
  setSpan(span: Span | null): void;
  readonly traces: Traces;
  readonly overview: Traces;
  readonly readings: Readings;
  readonly shown: Shown;
  readonly companions: Companions;
}

export const { Context: GroundContext, use: useGround } = subject<Ground>("The ground");
