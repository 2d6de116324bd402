/** Clipping: flat tops at the largest value that one side of one channel ever reaches. */

import { LARGEST_FLOAT_SAMPLE } from './decodeSamples.ts';

/** Samples within this share of the extreme count as on it: 0.001 dB, room for dither and for a converter's last step. */
const TOP_HAIR = 1e-4;
/** Consecutive samples on the extreme that make a flat top; two happen by chance on any fast tone. */
const LEAST_RUN = 3;
/** From here on the extreme is full scale, the end of a converter's range. */
export const FULL_SCALE = 1 - TOP_HAIR;
/** Below full scale a flat top must come back this often: a converter or preamp that clips early does so again. */
const LEAST_REPEATS = 3;
/** Extremes under this level (−34 dBFS) are no converter's limit. */
const LOWEST_LIMIT = 0.02;
/**
 * How far the curve must fall beside a flat top, in hairs. The top of any smooth curve falls at most 4 hairs over half
 * the run's length beyond it (a parabola that fits the run); three times that is a corner.
 */
const CORNER = 12;
/** Regions that still lie on the extreme are told apart by at least this, s. */
export const REGION_GAP_S = 0.1;

export interface FlatRegion {
  startFrame: number;
  /** one past the last frame */
  endFrame: number;
  runs: number;
  /** lowest level of its runs, full scale 1 */
  level: number;
}

/** What is known of one part of a recording, to be joined with its neighbours. */
export interface FlatTopsPart {
  readonly extreme: number;
  readonly regions: readonly FlatRegion[];
}

/**
 * Watches one polarity of one channel. The caller shows it only samples at or above `threshold`, so it costs nothing
 * while a signal stays clear of its own extreme. A run that is cut by a block's edge is judged by its two parts.
 *
 * @checked sampleInspector.test.ts
 */
export class FlatTops {
  /** in the direction watched, full scale 1 */
  threshold = LOWEST_LIMIT;
  #extreme = 0;
  #regions: FlatRegion[] = [];
  readonly #sign: 1 | -1;
  readonly #step: number;
  readonly #gapFrames: number;

  /** @param step smallest step of the samples, full scale 1 */
  constructor(sign: 1 | -1, step: number, sampleRateHz: number) {
    this.#sign = sign;
    this.#step = step;
    this.#gapFrames = Math.round(REGION_GAP_S * sampleRateHz);
  }

  get extreme(): number {
    return this.#extreme;
  }

  /** Looks at the samples from `at` on while they stay at or above the threshold; returns where they no longer do. */
  visit(samples: Float64Array, at: number, frames: number, startFrame: number): number {
    const sign = this.#sign;
    const entry = this.threshold;
    let end = at;
    let top = 0;
    while (end < frames) {
      const x = sign * samples[end]!;
      if (!(x >= entry && x <= LARGEST_FLOAT_SAMPLE)) break;
      if (x > top) top = x;
      end++;
    }
    if (end === at) return at + 1;
    if (top > this.#extreme) this.#raise(top);
    let from = at;
    while (from < end) {
      while (from < end && sign * samples[from]! < this.threshold) from++;
      let to = from;
      while (to < end && sign * samples[to]! >= this.threshold) to++;
      if (to - from >= LEAST_RUN && this.#isFlat(samples, from, to, frames))
        this.#add(startFrame + from, startFrame + to);
      from = to;
    }
    return end;
  }

  #raise(extreme: number): void {
    this.#extreme = extreme;
    this.threshold = Math.max(LOWEST_LIMIT, extreme * (1 - TOP_HAIR));
    if (this.#regions.length > 0) this.#regions = this.#regions.filter((region) => region.level >= this.threshold);
  }

  part(): FlatTopsPart {
    return { extreme: this.#extreme, regions: this.#regions };
  }

  /** Joins the part of the recording that follows. */
  append({ extreme, regions }: FlatTopsPart): void {
    if (extreme > this.#extreme) this.#raise(extreme);
    for (const region of regions) {
      if (!(region.level >= this.threshold)) continue;
      const last = this.#regions.at(-1);
      if (last !== undefined && region.startFrame - last.endFrame <= this.#gapFrames) {
        last.endFrame = region.endFrame;
        last.runs += region.runs;
        last.level = Math.min(last.level, region.level);
      } else {
        this.#regions.push({ ...region });
      }
    }
  }

  #isFlat(samples: Float64Array, from: number, to: number, frames: number): boolean {
    const sign = this.#sign;
    const level = sign * samples[from]!;
    if (this.#extreme >= FULL_SCALE) {
      let equal = 1;
      for (let i = from + 1; i < to && equal < LEAST_RUN; i++) equal = samples[i] === samples[i - 1] ? equal + 1 : 1;
      if (equal >= LEAST_RUN) return true;
    }
    const beyond = Math.max(1, (to - from - 1) >> 1);
    const before = from - beyond >= 0 ? level - sign * samples[from - beyond]! : 0;
    const after = to - 1 + beyond < frames ? level - sign * samples[to - 1 + beyond]! : 0;
    return Math.max(before, after) > CORNER * (TOP_HAIR * this.#extreme + this.#step);
  }

  #add(startFrame: number, endFrame: number): void {
    const last = this.#regions.at(-1);
    if (last !== undefined && startFrame - last.endFrame <= this.#gapFrames) {
      last.endFrame = endFrame;
      last.runs++;
      last.level = Math.min(last.level, this.#extreme);
    } else {
      this.#regions.push({ startFrame, endFrame, runs: 1, level: this.#extreme });
    }
  }

  /** Regions of flat tops at the extreme reached by now; none when they may be chance. */
  regions(): readonly FlatRegion[] {
    const runs = this.#regions.reduce((sum, region) => sum + region.runs, 0);
    return this.#extreme >= FULL_SCALE || runs >= LEAST_REPEATS ? this.#regions : [];
  }
}
