// Which numbers an answer is about: one capture, read in one way and corrected in one way.

import type { Bank, Role } from "./capture.ts";
import type { ReadChoices } from "./reader.ts";

/** The user's corrections of one channel; samples stay as recorded. Shown and measured = recorded * gain + offset. */
export interface ChannelCorrection {
  readonly role?: Role;
  readonly bank?: Bank;
  readonly unit?: string;
  readonly gain: number;
  readonly offset: number;
}

/** By channel id; a channel that is not named stands as recorded. */
export type Corrections = Readonly<Record<string, ChannelCorrection>>;

/** A capture as read and corrected, and the bank that is judged. Two takes that are alike have the same numbers. */
export interface Take {
  /** SHA-256 of the file's bytes, hex. */
  readonly captureId: string;
  /** How it was read. */
  readonly choices: ReadChoices;
  readonly corrections: Corrections;
  readonly bank: Bank;
}

/** As it was read, nothing corrected. */
export const asRead = (captureId: string, choices: ReadChoices): Take => ({
  captureId,
  choices,
  corrections: {},
  bank: choices.bank ?? 1,
});

/** The same text for plain data that says the same, whatever the order of its keys; an absent value is as if not there. */
export const identityOf = (value: unknown): string => JSON.stringify(sorted(value));

/** The same for any order of the keys. */
function sorted(value: unknown): unknown {
  if (value === null || typeof value !== "object") return value;
  if (Array.isArray(value)) return value.map(sorted);
  const present = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return Object.fromEntries(present.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, inner]) => [key, sorted(inner)]));
}
