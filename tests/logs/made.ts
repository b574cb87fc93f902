// What the kinds of odd logs share: cells, rows, and what to ask of a capture.

import type { Capture, Role } from "../../src/capture/model/capture.ts";
import type { ReadChoices } from "../../src/capture/model/reader.ts";
import { analyse } from "../../src/exhaust/analyse.ts";
import { countOf, timeAt } from "../../src/signal/series/series.ts";
import type { Random } from "../reference/recorders.ts";

/** "asked": read, and what is in doubt is said; "refused": not read, with the reason, where nothing else would do. */
export type Outcome = "right" | "asked" | "refused" | "wrong";

export interface Made {
  readonly text: string;
  /** Instead of the text, where the file is none. */
  readonly bytes?: Uint8Array;
  readonly choices?: ReadChoices;
  judge(capture: Capture): Outcome;
  /** What is right where the file cannot be read: the code of the problem, and what it must tell. */
  readonly refusal?: string;
  readonly tells?: RegExp;
}

export type Kind = (next: Random) => Made;

export const pick = <T>(next: Random, list: readonly T[]): T => list[Math.floor(next.uniform() * list.length)]!;
export const whole = (next: Random, least: number, most: number): number =>
  least + Math.floor((most - least + 1) * next.uniform());
export const front = (t: number, f: number) =>
  0.45 + 0.38 * Math.sign(Math.sin(2 * Math.PI * f * t)) + 0.01 * Math.sin(9 * t);
export const rear = (t: number) => 0.68 + 0.03 * Math.sin(t / 5);
export const sensors = "O2 B1S1 (V),O2 B1S2 (V)";
export const volts = (t: number, f = 0.7) => [front(t, f).toFixed(3), rear(t).toFixed(3)];
export const count = (next: Random) => whole(next, 80, 200);
export const two = (value: number) => String(value).padStart(2, "0");
export const clock = (seconds: number) =>
  `${two(Math.floor(seconds / 3600) % 24)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;

export const csv = (header: string, rows: readonly (readonly (string | number)[])[], mark = ","): string =>
  `${header}\n${rows.map((row) => row.join(mark)).join("\n")}\n`;

export const has = ({ channels }: Capture, name: string, role: Role): boolean =>
  channels.some((channel) => channel.name === name && channel.role === role);
export const channelOf = ({ channels }: Capture, role: Role) => channels.find((channel) => channel.role === role);
export const lasts = ({ channels }: Capture, seconds: number): boolean => {
  const ends = channels.map(({ series: { time } }) => (countOf(time) > 0 ? timeAt(time, countOf(time) - 1) : 0));
  return Math.abs(Math.max(...ends) - seconds) < 0.02 * seconds + 1e-6;
};
export const says = ({ remarks }: Capture, shape: RegExp): boolean => remarks.some(({ text }) => shape.test(text));
export const rightIf = (isRight: boolean): Outcome => (isRight ? "right" : "wrong");

/** Everything that is said of the car. */
export const statementsOn = (capture: Capture): string[] =>
  analyse(capture, { bank: 1 }).findings.flatMap(({ statement, for: speaking, against, next }) => [
    statement,
    ...[...speaking, ...against].map(({ says: said }) => said),
    ...next,
  ]);
