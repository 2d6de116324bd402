/** Clicks inside a tone: samples that are off the smooth course of its phase or its level. */
import { median } from './robust.ts';
import { workArray } from './workArrays.ts';

/** spreads (of a normal distribution) beyond which a sample counts as spoilt */
const OUTLIER_SPREADS = 5.5;
/** samples of a stretch that tell its usual spread well enough */
const ENOUGH = 4000;

export interface ToneCourse {
  readonly amplitude: Float64Array;
  /** rad, without jumps */
  readonly phase: Float64Array;
  /** 1 where a sample may be used */
  readonly good: Uint8Array;
  /** the stretch, first sample and one past its last */
  readonly from: number;
  readonly to: number;
  readonly usualAmplitude: number;
}

/**
 * Clears `good` where a sample is off the course, and `reach` to either side of it. The course is a cubic through four neighbours,
 *   c[n] = (4 (y[n−k] + y[n+k]) − (y[n−2k] + y[n+2k])) / 6,
 * which wow cannot bend away from; k is beyond a click's reach.
 * @returns true where any was off
 */
export function markClicks(tone: ToneCourse, reach: number): boolean {
  const { good, from, to } = tone;
  const k = 2 * reach;
  if (to - from < 5 * k) return false;
  const course = new SmoothCourse(tone);
  const suspects: { n: number; excess: number }[] = [];
  for (let n = from + 2 * k; n < to - 2 * k; n++) {
    if (good[n] === 0) continue;
    const excess = course.excess(n, k);
    if (excess > 1) suspects.push({ n, excess });
  }
  // Largest first: once it is out, neighbours that looked bad only because of it are judged again from clean ones.
  suspects.sort((a, b) => b.excess - a.excess);
  const steps = [k, k + reach, k - (reach >> 1), k + 2 * reach, 2 * k + reach];
  for (const { n } of suspects) {
    if (good[n] === 0) continue;
    const step = steps.find((s) => course.isUsable(n, s));
    if (step === undefined || !(course.excess(n, step) > 1)) continue;
    good.fill(0, Math.max(from, n - reach), Math.min(to, n + reach + 1));
  }
  return suspects.length > 0;
}

const offCourse = (y: Float64Array, n: number, step: number): number =>
  y[n] - (4 * (y[n - step] + y[n + step]) - (y[n - 2 * step] + y[n + 2 * step])) / 6;

/** Methods, not functions made for every tone: each of those would be made faster anew. */
class SmoothCourse {
  /** by step: how far off the course is too far */
  private readonly limits = new Map<number, { readonly phase: number; readonly level: number }>();

  private readonly tone: ToneCourse;

  constructor(tone: ToneCourse) {
    this.tone = tone;
  }

  /** Whether the four neighbours may be used. */
  isUsable(n: number, step: number): boolean {
    const { good, from, to } = this.tone;
    return (
      n - 2 * step >= from &&
      n + 2 * step < to &&
      good[n - 2 * step] + good[n - step] + good[n + step] + good[n + 2 * step] === 4
    );
  }

  /** How far a sample is off the course, 1 where it is just too far. */
  excess(n: number, step: number): number {
    const { phase, amplitude } = this.tone;
    const limit = this.limits.get(step) ?? this.limitsAt(step);
    return Math.max(
      Math.abs(offCourse(phase, n, step)) / limit.phase,
      Math.abs(offCourse(amplitude, n, step)) / limit.level,
    );
  }

  /** Kept: later ones are judged as those that were looked at first. */
  private limitsAt(step: number): { readonly phase: number; readonly level: number } {
    const { phase, amplitude, usualAmplitude } = this.tone;
    const limit = {
      phase: OUTLIER_SPREADS * Math.max(this.spread(phase, step), 1e-7),
      level: OUTLIER_SPREADS * Math.max(this.spread(amplitude, step), 1e-7 * usualAmplitude),
    };
    this.limits.set(step, limit);
    return limit;
  }

  private spread(y: Float64Array, step: number): number {
    const { good, from, to } = this.tone;
    const stride = Math.max(1, Math.floor((to - from) / ENOUGH));
    const sizes = workArray(Math.ceil((to - from) / stride));
    let count = 0;
    for (let n = from + 2 * step; n < to - 2 * step; n += stride) {
      if (good[n] === 1) sizes[count++] = Math.abs(offCourse(y, n, step));
    }
    return 1.4826 * median(sizes.subarray(0, count));
  }
}
