// Stamps that come part by part put in order, as `orderStamps` does it with all of them at once.

import type { Seconds } from "../../signal/numbers/units.ts";
import { StepCounts } from "../../signal/series/gaps.ts";
import type { Remark } from "../model/capture.ts";
import { NotInParts, partGrain } from "../model/reader.ts";
import { StampPass, type StampRule } from "./stamp-pass.ts";
import {
  doubtOf,
  gatheredTimes,
  isCoarse,
  isRising,
  stampedRows,
  stampRule,
  stepsOf,
  Unwrapping,
  type WrittenStamps,
  withoutTime,
} from "./stamps.ts";

/** Rows of a part in order. */
export interface OrderedPart {
  /** Rising, and above those before. */
  readonly stamps: WrittenStamps;
  /** Rows behind them, among those that were taken; null for all. */
  readonly rows: Int32Array | null;
  /** Rows that are done with. The others must come again, with what follows them. */
  readonly taken: number;
}

/**
 * Which way time runs, and whether and over what rows are spread that share a stamp, is decided with the first part, and looked
 * at again when all is there. Everything else a stamp and its neighbours decide: missing ones, repeats, steps backwards, a clock
 * that starts again or passes midnight.
 */
export class PartStamps {
  private rule: StampRule | null = null;
  private pass: StampPass | null = null;
  private unwrapping: Unwrapping | null = null;
  private readonly steps = new StepCounts();
  private readonly tally = { up: 0, down: 0, repeats: 0, missing: 0 };
  private last: Seconds = Number.NaN;
  private rows = 0;
  /** All stamps so far as they were written. */
  private isPlain = true;
  /** A rising clock left out more than half a round: where it must be unwrapped, these rows belong elsewhere. */
  private hasLongStep = false;

  /**
   * @param written  of rows that follow those taken before. Where more follow, as many as `partGrain` divides are kept.
   * @throws NotInParts
   */
  take(written: WrittenStamps, isLast: boolean): OrderedPart {
    const { seconds, wrap } = written;
    this.unwrapping ??= new Unwrapping(wrap);
    const { last, round } = this.unwrapping;
    const isRisen = isRising(seconds) && !(seconds[0]! <= last);
    const isLong = wrap > 0 && isRisen && hasStepAbove(wrap / 2, seconds, last);
    if (isRisen && (this.isPlain || (!isLong && round === 0)) && this.mayStay(written)) {
      this.hasLongStep ||= isLong;
      return this.asWritten(written);
    }
    if (this.hasLongStep) throw new NotInParts("a clock with long holes that starts anew");
    return this.ordered(written, isLast);
  }

  /** @throws NotInParts where all stamps together show something else than the first part did. */
  finish(): void {
    const { up, down, repeats } = this.tally;
    if (down > up) throw new NotInParts("time that runs from late to early");
    const spread = this.rule?.spread ?? null;
    if (isCoarse(repeats, up + down + repeats) !== (spread !== null))
      throw new NotInParts("stamps of another coarseness");
    if (spread !== null && Math.abs(this.steps.binOf(spread) - this.steps.below(0.5)) > 1)
      throw new NotInParts("stamps of another step");
  }

  /** As `orderStamps` has them. */
  remarks(): Remark[] {
    const { missing } = this.tally;
    return [...(missing > 0 ? [withoutTime(missing)] : []), ...(this.pass?.remarks() ?? [])];
  }

  private mayStay({ seconds, resolution, isWallClock }: WrittenStamps): boolean {
    this.begin(seconds, resolution, isWallClock);
    return this.pass!.isPlainFrom(seconds[0]!);
  }

  private asWritten(written: WrittenStamps): OrderedPart {
    const { seconds } = written;
    const { length } = seconds;
    this.pass!.takePlain(length, seconds[length - 1]!);
    this.tally.up += Number.isNaN(this.last) ? length - 1 : length;
    this.rows += length;
    this.last = seconds[length - 1]!;
    this.unwrapping!.last = this.last;
    return { stamps: written, rows: null, taken: length };
  }

  private ordered(written: WrittenStamps, isLast: boolean): OrderedPart {
    this.isPlain = false;
    const seconds = new Float64Array(written.seconds.length);
    this.unwrapping!.copy().take(written.seconds, seconds);
    const stamped = stampedRows(seconds);
    const times = gatheredTimes(seconds, stamped);
    this.begin(times, written.resolution, written.isWallClock);
    const passed = this.pass!.take(times, stamped, { before: this.rows, isLast, grain: partGrain });
    const taken = isLast ? seconds.length : passed.taken === 0 ? 0 : stamped[passed.taken - 1]! + 1;
    this.count(times.subarray(0, passed.taken), taken);
    this.unwrapping!.take(written.seconds.subarray(0, taken), seconds);
    const doubt = doubtOf(this.rule!);
    const stamps = { ...written, seconds: passed.seconds, ...(doubt ? { doubt } : {}) };
    return { stamps, rows: passed.rows, taken };
  }

  /** @param times  of the first part, in order. */
  private begin(times: Float64Array, resolution: Seconds, isWallClock?: boolean): void {
    if (this.rule) return;
    const { up, down } = stepsOf(times);
    if (down > up) throw new NotInParts("time that runs from late to early");
    this.rule = stampRule(times, resolution, isWallClock);
    this.pass = new StampPass(this.rule);
  }

  /** @param times  those that are done with, in order; of `rows` rows. */
  private count(times: Float64Array, rows: number): void {
    for (const time of times) {
      const step = time - this.last;
      if (step > 0) this.tally.up++;
      else if (step < 0) this.tally.down++;
      else if (step === 0) this.tally.repeats++;
      this.steps.add(step);
      this.last = time;
    }
    this.tally.missing += rows - times.length;
    this.rows += rows;
  }
}

function hasStepAbove(most: Seconds, seconds: Float64Array, before: Seconds): boolean {
  if (seconds[0]! - before > most) return true;
  for (let i = 1; i < seconds.length; i++) if (seconds[i]! - seconds[i - 1]! > most) return true;
  return false;
}
