// What the trial asks of an engine, whatever protocol it is driven by.

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** One browser with a fresh profile, on one page. */
export interface Driven {
  /** As the browser names itself: "Firefox 153.8". */
  readonly version: string;
  /** Files that the page let the browser save lie here. */
  readonly downloads: string;
  goto(address: string): Promise<void>;
  reload(): Promise<void>;
  /** Runs in the page; what goes in and comes out is JSON. */
  run<Words extends readonly unknown[], Result>(
    work: (...words: Words) => Result | Promise<Result>,
    ...words: Words
  ): Promise<Result>;
  /** A finger or mouse at a point of the view, trusted by the page. */
  press(at: Point): Promise<void>;
  drag(from: Point, to: Point): Promise<void>;
  /** Into what has the focus; the line's end is the Enter key. */
  type(text: string): Promise<void>;
  /** PNG of the view. */
  shot(): Promise<Buffer>;
  stop(): Promise<void>;
}

export interface Engine {
  readonly name: string;
  /** Null where it can be driven here, else what is missing. */
  missing(): string | null;
  /** Whether a page can keep files in it. */
  readonly keeps: boolean;
  start(): Promise<Driven>;
}
