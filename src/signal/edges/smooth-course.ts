// The smooth course of a noisy signal around an edge: a polynomial over as long a window as the signal allows.

import type { Seconds } from "../numbers/units.ts";
import { type Series, timeAt } from "../series/series.ts";
import type { ValueLimits } from "../statistics/value-limits.ts";
import {
  type Degree,
  type Fits,
  GrowingFit,
  type LocalFit,
  type Place,
  rootOf,
  sumAt,
  varianceAt,
} from "./local-fit.ts";

export interface CourseRule extends ValueLimits {
  /** One level, whose instant is wanted; or two, for the time from the first to the second. */
  readonly levels: readonly [level: number] | readonly [from: number, to: number];
  /** Samples that every window holds: first and last. */
  readonly core: readonly [first: number, last: number];
  /** Samples that may be used, half-open. */
  readonly from: number;
  readonly to: number;
}

/** Where a fitted course meets the level, or how long it takes from one to the other, and with what standard deviation. */
export interface SmoothCourse {
  readonly time: Seconds;
  readonly deviation: Seconds;
}

interface Course extends SmoothCourse {
  readonly fit: LocalFit;
  /** Variance of the time for noise of deviation 1. */
  readonly variance: number;
  /** Instants at which it meets the levels, and what its values there weigh in the time: one over the slope. */
  readonly places: readonly Place[];
}

/**
 * Critical value of a fit whose bias may reach half its deviation, as the choice of its window leaves open: Armstrong &
 * Kolesár, Quantitative Economics 11 (2020) 1, table 1.
 */
export const biasAware = 2.18;

/** Successive windows grow by this factor; this many misfits in a row end the search, since one may be chance. */
const growth = 1.2;
const mostMisfits = 3;

/** A fit only counts once it tells the time to this share of its own half-width: the slope is then well known. */
const firmShare = 0.06;

/** Noise below this share of the change between two samples is the rounding of the arithmetic. */
const leastNoise = 1e-9;

/** Fewer residuals than this beyond the finer fit cannot tell a bend or a kink from noise: such a window is not judged. */
const testable = 4;

/** Normal quantile beyond which two nested windows, or the residuals, disagree (0.1 % one-sided). */
const disagree = 3;

/** The same for a bend that two more powers would show in the same window: 95 %, two-sided. */
const bent = 2;

/**
 * The same between two levels. At one level in the middle of its window the bias of a parabola starts with the fourth power
 * of the width; between two with the second, and each narrower window takes less of it away. So it must stay below one
 * deviation of what the finer fit adds.
 */
const bentBetween = 1;

/**
 * Parabola and cubic, each over a window as wide as the signal allows, symmetric until one side runs out. A window is accepted while
 * - its residuals agree with the noise (chi-square);
 * - two more powers would not move the time found by more than their own doubt: what bends the signal is looked for where it
 *   would do harm;
 * - every narrower accepted window gives the same time. The difference of nested estimates has variance v_narrow -
 *   v_wide: O. V. Lepski, Theory Probab. Appl. 35 (1990) 454; Goldenshluger & Nemirovski, Math. Methods Statist. 6 (1997) 135.
 *
 * @param series  finite over the samples that may be used; read only.
 * @param rule    levels and sigma in the unit of the samples; indices of samples.
 * @returns null where the samples carry no noise, or where no window tells.
 *
 * So that what is not yet visible in the widest one stays small (undersmoothing), a narrower one is taken: the last but one
 * for the parabola, the last but two for the cubic, whose bias grows with a higher power of the width. Where so many narrower
 * ones are not accepted, the samples are too few to show a bend, and no window counts. Of the two, the one with the smaller
 * deviation.
 *
 * Two levels are met by the one fit, so what its errors at both have in common drops out of the time between them: a
 * shift does so wholly, a bend nearly, and what stays is about what a straight line through all of the edge would leave. The
 * narrowest window holds the samples between the levels.
 */
export function smoothCourse(series: Series, rule: CourseRule): SmoothCourse | null {
  const [first, last] = rule.core;
  const change = Math.abs(series.samples[last]! - series.samples[first]!);
  if (!(rule.sigma > leastNoise * change)) return null;
  const near = (timeAt(series.time, first) + timeAt(series.time, last)) / 2;
  const most = Math.max(first - rule.from, rule.to - 1 - last);
  const [parabolas, cubics] = [new Ladder(2, 1), new Ladder(3, 2)];
  const unit = timeAt(series.time, last) - timeAt(series.time, first);
  const growing = new GrowingFit(series, { near, at: first, unit });
  const isSingle = rule.levels.length === 1;
  let reach = isSingle ? Math.max(2, last - first) : 1;
  while (reach <= most && !(parabolas.isOver && cubics.isOver)) {
    const fits = growing.over(Math.max(rule.from, first - reach), Math.min(rule.to, last + reach + 1));
    if (fits) {
      parabolas.climb(fits, rule);
      cubics.climb(fits, rule);
    }
    const half = isSingle ? reach : reach + (last - first) / 2;
    reach = Math.max(reach + 1, Math.floor(reach + (growth - 1) * half + 1e-9));
  }
  const [parabola, cubic] = [parabolas.chosen(), cubics.chosen()];
  const isPlainer = parabola !== null && (cubic === null || parabola.deviation <= cubic.deviation);
  return isPlainer ? parabola : cubic;
}

const finerThan = (degree: 2 | 3): Degree => (degree === 2 ? 4 : 5);

/** The windows of one degree, from narrow to wide. */
class Ladder {
  readonly #degree: 2 | 3;
  readonly #stepBack: number;
  readonly #accepted: Course[] = [];
  #misfits = 0;

  constructor(degree: 2 | 3, stepBack: number) {
    this.#degree = degree;
    this.#stepBack = stepBack;
  }

  get isOver(): boolean {
    return this.#misfits >= mostMisfits;
  }

  climb(fits: Fits, rule: CourseRule): void {
    const fit = this.isOver ? null : fits.fit(this.#degree);
    const course = fit && courseOf(fit, rule);
    if (!course) return;
    const isFit =
      fits.freedom(finerThan(this.#degree)) >= testable &&
      agreesWithNoise(course.fit, rule.sigma) &&
      this.#isUnbent(fits, course, rule) &&
      this.#agreesWithNarrower(course, rule);
    this.#misfits = isFit ? 0 : this.#misfits + 1;
    if (isFit) this.#accepted.push(course);
  }

  /** Whether the fit of two more powers over the same window gives the same time. */
  #isUnbent(fits: Fits, course: Course, rule: CourseRule): boolean {
    const finer = fits.fit(finerThan(this.#degree));
    return finer !== null && agree(finer, course, rule, rule.levels.length === 1 ? bent : bentBetween);
  }

  #agreesWithNarrower(course: Course, rule: CourseRule): boolean {
    const accepted = this.#accepted;
    for (let k = 0; k < accepted.length; k++) if (!agree(accepted[k]!.fit, course, rule, disagree)) return false;
    return true;
  }

  /** What lasts of it: the fit's room is taken by the next search. */
  chosen(): SmoothCourse | null {
    const course = this.#accepted[this.#accepted.length - 1 - this.#stepBack];
    if (!course || !(course.deviation <= firmShare * course.fit.half)) return null;
    return { time: course.time, deviation: course.deviation };
  }
}

/**
 * Deviation: of white noise, and of rounding, which errs alike in all samples of one tread (see `Limits`). A tread of m
 * samples counts as one value of variance tread² / 12 where white noise would count as m: m - 1 times that is added.
 */
function courseOf(fit: LocalFit, { levels, sigma, tread }: CourseRule): Course | null {
  const first = rootOf(fit, levels[0]);
  const last = levels.length === 1 ? first : rootOf(fit, levels[1]);
  if (first === null || last === null) return null;
  const slope = Math.min(Math.abs(first.slope), Math.abs(last.slope));
  const coherent = (tread ** 2 / 12) * Math.max(0, tread / (slope * fit.step) - 1);
  const places = [{ time: first.time, weight: 1 / first.slope }];
  if (levels.length > 1) places.push({ time: last.time, weight: -1 / last.slope });
  const variance = varianceAt(fit, places);
  const deviation = Math.sqrt(variance * (sigma ** 2 + coherent));
  return { time: levels.length === 1 ? first.time : last.time - first.time, deviation, fit, variance, places };
}

/**
 * Chi-square test of the residuals, by the cube-root approximation of Wilson & Hilferty, PNAS 17 (1931) 684.
 *
 * @param fit  sum of squared residuals, and degrees of freedom, > 0. @param sigma  unit of the residuals.
 * @returns false where so large a sum has a chance of 0.1 %.
 */
export function agreesWithNoise(
  { residual, freedom }: { readonly residual: number; readonly freedom: number },
  sigma: number,
): boolean {
  const width = 2 / (9 * freedom);
  const root = 1 - width + disagree * Math.sqrt(width);
  return residual <= sigma * sigma * freedom * root * root * root;
}

/** Whether a less certain fit, nested in the course's or the other way round, gives the time that the course gives. */
function agree(loose: LocalFit, course: Course, { levels, sigma }: CourseRule, quantile: number): boolean {
  const { places, variance } = course;
  let off = sumAt(loose, places);
  for (let k = 0; k < places.length; k++) off -= levels[k]! * places[k]!.weight;
  const more = Math.max(0, varianceAt(loose, places) - variance);
  return Math.abs(off) <= quantile * sigma * Math.sqrt(more);
}
