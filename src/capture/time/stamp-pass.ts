// One pass over stamps in their order: rows that fall back are joined on or left out, rows that share a stamp spread or left out.

import type { Seconds } from "../../signal/numbers/units.ts";
import type { Words } from "../../signal/written/words.ts";
import type { Remark } from "../model/capture.ts";
import { remarkOf } from "../model/remarks.ts";

/** What is decided of all stamps together. */
export interface StampRule {
  /** Laid between what was and what follows a new start of the clock. */
  readonly gap: Seconds;
  /** Usual step of a clock that is coarser than the rows, over which they are spread; null where repeats are left out. */
  readonly spread: Seconds | null;
  /** A fall of the clock by so much is the end of summer time, and an hour is put on what follows; null where the clock is no wall's. */
  readonly setBackBy: { readonly least: Seconds; readonly most: Seconds } | null;
}

/** Rising stamps, and the rows behind them. */
export interface Passed {
  readonly seconds: Float64Array;
  readonly rows: Int32Array;
}

interface Where {
  /** Rows before these, in the file. */
  readonly before: number;
  /** Whether nothing follows. */
  readonly isLast: boolean;
  /** Where more follows, as many stamps are kept as this divides. */
  readonly grain?: number;
}

/** Everything that one stamp leaves for the next. */
interface State {
  shift: Seconds;
  /** The latest time so far, and that of the last row that was kept. */
  reached: Seconds;
  last: Seconds;
  restarts: number;
  back: number;
  repeats: number;
  kept: number;
  firstRestart: number;
  hoursBack: number;
  firstHourBack: number;
  firstBack: number;
  firstRepeat: number;
}

const restartAfter = 5; // rows that must go on from an earlier time before it counts as a new start of the clock

export class StampPass {
  private state: State = {
    shift: 0,
    reached: Number.NEGATIVE_INFINITY,
    last: Number.NEGATIVE_INFINITY,
    restarts: 0,
    back: 0,
    repeats: 0,
    kept: 0,
    firstRestart: -1,
    hoursBack: 0,
    firstHourBack: -1,
    firstBack: -1,
    firstRepeat: -1,
  };
  /** How many rows of the last stamp have been spread, where not all of them were. */
  private begun = 0;
  private readonly rule: StampRule;

  constructor(rule: StampRule) {
    this.rule = rule;
  }

  /** Whether rising stamps from `time` on stay as they are. */
  isPlainFrom(time: Seconds): boolean {
    return this.rule.spread === null && this.state.shift === 0 && time > this.state.reached;
  }

  /** Takes `count` such stamps, the last of them `time`. */
  takePlain(count: number, time: Seconds): void {
    this.state.kept += count;
    this.state.reached = time;
    this.state.last = time;
  }

  /**
   * Takes stamps, and where more follow only as many of them as can be decided now: the others must be given again.
   *
   * @param times  none NaN; those of `rows`.
   * @returns with `taken`, the number of `times` that are done with.
   */
  take(
    times: Float64Array,
    rows: Int32Array,
    { before, isLast, grain = 1 }: Where,
  ): Passed & { readonly taken: number } {
    const seconds = new Float64Array(times.length);
    const kept = new Int32Array(times.length);
    const marks: { readonly taken: number; readonly state: State }[] = [{ taken: 0, state: { ...this.state } }];
    const start = this.state.kept;
    for (let i = 0; i < times.length; i++) {
      const isKept = this.step(times, i, before + rows[i]!, isLast);
      if (isKept === null) break;
      const count = this.state.kept - start;
      if (isKept) [seconds[count - 1], kept[count - 1]] = [this.state.last, rows[i]!];
      if (!isLast && count % grain === 0) marks[count / grain] = { taken: i + 1, state: { ...this.state } };
    }
    const all = seconds.subarray(0, this.state.kept - start);
    let mark = { taken: times.length, state: this.state };
    if (!isLast) {
      const whole = this.rule.spread === null ? all.length : lastGroup(all);
      mark = marks[Math.floor(whole / grain)]!;
    }
    this.state = mark.state;
    const count = this.state.kept - start;
    const rising = this.rule.spread === null ? all.slice(0, count) : this.spread(all, count, this.rule.spread);
    return { seconds: rising, rows: kept.slice(0, count), taken: mark.taken };
  }

  remarks(): Remark[] {
    const { restarts, hoursBack, back, repeats, kept, firstRestart, firstHourBack, firstBack, firstRepeat } =
      this.state;
    const counted = (text: string, first: number, count: number): Remark[] =>
      count > 0 ? [{ text, where: `row ${first + 1}`, count }] : [];
    const { spread } = this.rule;
    return [
      ...counted(
        "time starts again inside the file; what follows was put behind what was, after a gap",
        firstRestart,
        restarts,
      ),
      ...counted(
        "the clock was set back by an hour, as summer time ended; what follows was put an hour on",
        firstHourBack,
        hoursBack,
      ),
      ...counted("rows whose time runs backwards were left out", firstBack, back),
      ...counted("rows that repeat the stamp before were left out", firstRepeat, repeats),
      ...(spread === null ? [] : [remarkOf(wasSpread(spread), { count: kept })]),
    ];
  }

  /** Takes stamp `i`. @returns whether its row is kept; null where that cannot be told before more is there. */
  private step(times: Float64Array, i: number, row: number, isLast: boolean): boolean | null {
    const { state } = this;
    if (times[i]! + state.shift < state.reached) {
      if (!isLast && i + restartAfter > times.length) return null;
      // Where time falls back and goes on from there, the rest is moved behind what was.
      if (goesOn(times, i, state.reached - state.shift)) this.beginAnew(times[i]!, row);
    }
    const time = times[i]! + state.shift;
    state.reached = Math.max(state.reached, time);
    if (time > state.last || (this.rule.spread !== null && time === state.last)) {
      state.last = time;
      state.kept++;
      return true;
    }
    if (time < state.last) {
      if (state.back++ === 0) state.firstBack = row;
    } else if (state.repeats++ === 0) state.firstRepeat = row;
    return false;
  }

  /** From `time` on the clock stands lower than it did: by an hour of summer time, or as it began again. */
  private beginAnew(time: Seconds, row: number): void {
    const { state, rule } = this;
    const back = state.reached - state.shift - time;
    if (rule.setBackBy && back >= rule.setBackBy.least && back <= rule.setBackBy.most) {
      if (state.hoursBack++ === 0) state.firstHourBack = row;
      state.shift += 3600;
      return;
    }
    if (state.restarts++ === 0) state.firstRestart = row;
    state.shift = state.reached + rule.gap - time;
  }

  /** The first `count` of rows that share coarse stamps spread evenly up to the next stamp, at most one usual step. */
  private spread(stamps: Float64Array, count: number, step: Seconds): Float64Array {
    const seconds = new Float64Array(count);
    for (let from = 0; from < count; ) {
      let to = from + 1;
      while (to < stamps.length && stamps[to] === stamps[from]) to++;
      const room = to < stamps.length ? Math.min(step, stamps[to]! - stamps[from]!) : step;
      const { begun } = this;
      for (let i = from; i < Math.min(to, count); i++)
        seconds[i] = stamps[from]! + ((begun + i - from) * room) / (begun + to - from);
      this.begun = to > count ? begun + count - from : 0;
      from = to;
    }
    return seconds;
  }
}

/** From `at` on, the next rows rise and stay below what was reached before. */
function goesOn(times: Float64Array, at: number, reached: Seconds): boolean {
  const end = Math.min(times.length, at + restartAfter);
  if (end - at < restartAfter) return false;
  for (let i = at + 1; i < end; i++) if (times[i]! < times[i - 1]! || times[i]! >= reached) return false;
  return true;
}

/** Where the rows begin that share the last stamp: more of them may follow. */
function lastGroup(stamps: Float64Array): number {
  let from = stamps.length;
  while (from > 0 && stamps[from - 1] === stamps.at(-1)) from--;
  return from;
}

function wasSpread(step: Seconds): Words {
  const why = " apart); they were spread evenly, and each may be off by up to that much";
  return ["several rows share one stamp (stamps are ", { value: step, unit: "s" }, why];
}
