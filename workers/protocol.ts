// The messages between the page and the capture worker. Plain data both ways; typed arrays in answers are transferred.

import type { Channel, Remark } from "../src/capture/model/capture.ts";
import type { ReadChoices } from "../src/capture/model/reader.ts";
import type { Take } from "../src/capture/model/take.ts";
import type { Preview } from "../src/capture/preview.ts";
import type { Comparable } from "../src/exhaust/comparing/comparison.ts";
import type { Fitted } from "../src/exhaust/healthy-trace.ts";
import type { Shift } from "../src/exhaust/lining-up/line-up.ts";
import type { HealthyTrace } from "../src/exhaust/store/healthy.ts";
import type { Analysis, AnalysisChoices, Span, SpanReadings } from "../src/exhaust/terms/analysis.ts";
import type { LimitOverrides } from "../src/exhaust/terms/limits.ts";
import type { Outcome, Problem } from "../src/problem.ts";
import type { Filter } from "../src/signal/filters/filter.ts";
import type { Reading } from "../src/signal/numbers/reading.ts";
import type { Seconds } from "../src/signal/numbers/units.ts";
import type { Writing } from "../src/signal/written/writing.ts";

/** What lies in storage of one recording. */
export interface StoredCapture {
  readonly id: string;
  /** Of the file that was opened; "" where that is not known. */
  readonly name: string;
  readonly bytes: number;
}

/** A channel without its samples. */
export interface ChannelSummary extends Omit<Channel, "series"> {
  readonly samples: number;
  readonly rate: Reading;
  readonly from: Seconds;
  readonly to: Seconds;
  /** Lowest and highest sample; null where the channel holds no value. */
  readonly range: readonly [low: number, high: number] | null;
}

export interface CaptureSummary {
  /** SHA-256 of the file's bytes, hex. */
  readonly id: string;
  /** What this is a summary of: names it in every later request. */
  readonly take: Take;
  readonly name: string;
  readonly size: number;
  readonly format: string;
  readonly startedAt: string | null;
  readonly span: Span;
  readonly channels: readonly ChannelSummary[];
  readonly remarks: readonly Remark[];
  /** Of the recording as it was read: "The front looks clipped at 0.9 V", "front and rear look swapped". */
  readonly warnings: readonly Remark[];
}

/** Channels that are looked at through a filter, by id; all others as recorded. */
export type Filters = Readonly<Record<string, Filter>>;

export interface WindowRequest {
  readonly take: Take;
  readonly channelIds: readonly string[];
  readonly filters?: Filters;
  readonly span: Span;
  /** Device pixels. */
  readonly width: number;
}

/** See plot's TraceWindow. */
export interface ChannelWindow {
  readonly channelId: string;
  readonly times: Float64Array;
  readonly values: Float64Array;
  readonly dense: boolean;
}

export interface ValueAt {
  readonly channelId: string;
  readonly value: number | null;
  /** True when `time` lies between two samples and the value is interpolated. */
  readonly between: boolean;
}

export interface SnapRequest {
  readonly take: Take;
  readonly channelIds: readonly string[];
  readonly filters?: Filters;
  readonly near: Seconds;
  readonly within: Seconds;
  readonly to: "crossing" | "extreme" | "sample";
  /** For "crossing"; 0.45 V for oxygen sensors. */
  readonly level: number;
}

export interface Snap {
  readonly channelId: string;
  readonly time: Seconds;
  readonly value: number;
  /** Bounds of the time. */
  readonly low: Seconds;
  readonly high: Seconds;
}

export type { EvidenceKey, SpanReadings } from "../src/exhaust/terms/analysis.ts";

/** All that is measured on a whole capture: the command line prints the same. */
export interface WholeReadings extends Analysis {
  /** Where memory cannot hold all that is judged: means of neighbouring samples were taken instead. */
  readonly means?: Means;
}

export interface Means {
  /** So many were taken as one. */
  readonly samples: number;
  /** How long that is in the slowest channel, s. */
  readonly long: Seconds;
}

/** What the job says that readings honour; the bank is the take's. */
export type WholeChoices = Omit<AnalysisChoices, "bank"> & Written;

/** How numbers stand in what is said of a reading; without it, plain. */
export interface Written {
  readonly writing?: Writing;
}

/** What is measured, and all that the answer depends on. */
export interface SpanRequest extends Written {
  readonly take: Take;
  readonly span: Span;
  readonly limits: LimitOverrides;
  /** Mean, lowest and highest of every channel as well. */
  readonly withLevels?: boolean;
}

/** The same of a whole capture. */
export interface WholeRequest {
  readonly take: Take;
  readonly choices: WholeChoices;
}

/** An answer from before. */
export interface Before<T> {
  readonly answer: T;
  /** This very program gave it: measured again, it would be the same. */
  readonly isCurrent: boolean;
}

/** A whole as it was answered, whose fitted car is driven again. */
export interface HealthyRequest extends WholeRequest {
  readonly fitted: Fitted;
}

/** What is measured first where not all can be at once: the answer of the bench, its span, what lies beside it. */
export const urgencies = ["answer", "span", "beside"] as const;
export type Urgency = (typeof urgencies)[number];

/** The way out of what may take long, and how far it is. */
export interface Watching {
  /** Gives it up: it answers "cancelled". */
  readonly signal?: AbortSignal | undefined;
  /** Told the share that is done, and 1, where it takes long. */
  readonly onProgress?: OnProgress | undefined;
}

/** How a measurement is to be done. */
export interface Turn extends Watching {
  readonly urgency: Urgency;
}

export interface SaveRequest {
  readonly take: Take;
  readonly channelIds: readonly string[];
  readonly span: Span;
  readonly format: "csv" | "npy";
}

/** Two channels that are to run most alike, about an instant of the suspect. */
export interface LineUpRequest {
  readonly suspect: { readonly take: Take; readonly channelId: string };
  readonly reference: { readonly take: Take; readonly channelId: string };
  readonly at: Seconds;
  /** How much of both is laid over each other, s either way. */
  readonly reach: Seconds;
  /** Shift about which is searched, and how far. */
  readonly guess: Seconds;
  readonly most: Seconds;
}

/** Two captures of one run, and which channels of theirs hold the same quantity; the first that can tells the shift. */
export interface SameRunRequest {
  readonly take: Take;
  readonly other: Take;
  readonly pairs: readonly { readonly mine: string; readonly other: string; readonly name: string }[];
}

export interface CrossingRequest {
  readonly take: Take;
  readonly channelId: string;
  readonly after: Seconds;
  readonly level: number;
}

export interface OpenRequest {
  readonly file: Blob;
  readonly name: string;
  readonly choices: ReadChoices;
}

/**
 * Bytes taken in so far. `partial` holds what has been read by then, now and again in a long read: its id is good for
 * windows, values and snaps until `open` answers, and the same through one read.
 */
export type OnProgress = (done: number, total: number, partial?: CaptureSummary) => void;

/** What the worker offers the page. Every failure the user can mend comes back as a Problem. */
export interface CaptureService {
  /** Reads a file and keeps it. One at a time: a new call cancels the one under way. */
  open(request: OpenRequest, onProgress: OnProgress): Promise<Outcome<CaptureSummary>>;
  cancelOpen(): Promise<void>;
  /** Back from the browser's own storage after a reload. */
  reopen(captureId: string, choices: ReadChoices): Promise<Outcome<CaptureSummary>>;
  /**
   * Answers when the browser's own storage holds the capture: null, or why it will not be there after a reload. Asked again
   * after storage was full, it is tried again.
   *
   * @param wasEmptied  storage was, since this was answered last: what it holds no more is kept once more.
   */
  kept(captureId: string, wasEmptied?: boolean): Promise<Problem | null>;
  /** The file's bytes as they were opened; null when the capture is not at hand. */
  file(captureId: string): Promise<Blob | null>;
  /** The same once its bytes were found to be what was opened; a Problem "damaged" else, "unreadable" without them. */
  wholeFile(captureId: string): Promise<Outcome<Blob>>;
  /** SHA-256 of the file's bytes at hand, hex: that of its record, if nothing changed them. A Problem "unreadable" without bytes. */
  sha256(captureId: string): Promise<Outcome<string>>;
  /** All recordings in the browser's storage, whoever keeps them. */
  stored(): Promise<readonly StoredCapture[]>;
  /** Removes it from storage, unless a tab, this one too, has it at hand. */
  removeStored(captureId: string): Promise<void>;
  /** Lets go of it, in memory and in storage; while another tab has it at hand, storage keeps it. */
  forget(captureId: string): Promise<void>;
  /** What is to be warned of; for a capture whose samples are not in memory, what was said when it was read. */
  warnings(take: Take): Promise<readonly Remark[]>;
  /**
   * Empty for a capture that is not (or no longer) at hand, or read otherwise. Channels that cannot be seen through their
   * filter, or not over so much, are left out.
   */
  window(request: WindowRequest): Promise<readonly ChannelWindow[]>;
  valuesAt(take: Take, channelIds: readonly string[], time: Seconds, filters?: Filters): Promise<readonly ValueAt[]>;
  snap(request: SnapRequest): Promise<Snap | null>;
  /** Measured beside the windows, which go on; in turn, by urgency. */
  measure(request: SpanRequest, turn: Turn): Promise<Outcome<SpanReadings>>;
  whole(request: WholeRequest, turn: Turn): Promise<Outcome<WholeReadings>>;
  /** What was answered when this was asked last, from memory or out of storage; null where it is not at hand. */
  wholeBefore(request: WholeRequest): Promise<Before<WholeReadings> | null>;
  /** What the whole will most likely say, of means of its samples; null where the answer itself takes hardly longer. */
  firstLook(request: WholeRequest, turn: Turn): Promise<Outcome<WholeReadings | null>>;
  /** The rear that a sound catalyst would have given on this drive. */
  healthy(request: HealthyRequest, turn: Turn): Promise<Outcome<HealthyTrace>>;
  /** All that a comparison must know of a capture. */
  comparable(request: WholeRequest, turn: Turn): Promise<Outcome<Comparable>>;
  /** Of two captures at hand: the shift at which they run most alike. */
  lineUp(request: LineUpRequest): Promise<Outcome<Shift>>;
  /** Of two captures at hand: where all that both recorded runs most alike; not resolvable where it does not. */
  lineUpRun(request: SameRunRequest): Promise<Outcome<Shift>>;
  /** Not resolvable where there is none. */
  firstCrossing(request: CrossingRequest): Promise<Outcome<Reading>>;
  /** A recording as it would be read with `choices`; what is wrong with it is told in the preview. */
  preview(file: Blob, name: string, choices: ReadChoices): Promise<Preview>;
  /** Channels over a span as a file to take along, corrections applied; it goes to the browser piece by piece, never whole into memory. */
  saveSpan(request: SaveRequest, watching?: Watching): Promise<Outcome<Blob>>;
  /** Runs through the work of a first recording on a made-up one, until there is a real one: its answer comes sooner. */
  rehearse(): Promise<void>;
}
