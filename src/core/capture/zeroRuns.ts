/** Stretches of exact zeros in mid-signal: what a computer that could not keep up leaves in place of samples. */

/** Shortest stretch that is reported, frames: half of the 128 that live audio comes in. */
export const LEAST_ZEROS = 64;
/** Longer stretches are no lost buffer but an edit or a mute, s. */
export const LONGEST_DROP_S = 0.25;
/** Signal that must stand on both sides of the zeros: 4 steps of 16 bits. Quieter, zeros may be honest rounding. */
export const LEAST_BESIDE = 4 * 2 ** -15;
/** Frames looked at on either side. */
const BESIDE = 16;

export interface ZeroRun {
  readonly startFrame: number;
  /** one past the last frame */
  readonly endFrame: number;
}

/** What is known of one part of a recording, to be joined with its neighbours. */
export interface ZeroRunsPart {
  readonly runs: readonly ZeroRun[];
  /** zeros that the part begins with, and the loudest of the frames after them; null where it is all zeros */
  readonly leading: { readonly length: number; readonly after: number } | null;
  /** zeros that the part ends with */
  readonly open: number;
  /** loudest of the frames before these */
  readonly before: number;
}

/** Collects zero runs between signal; shown only their ends and the ends of blocks. @checked sampleInspector.test.ts */
export class ZeroRuns {
  readonly runs: ZeroRun[] = [];
  /** loudest of the last frames before the run that is open, or before the block to come */
  #before = 0;
  #firstFrame = -1;
  #leading: ZeroRunsPart['leading'] = null;

  /** The first block, before anything else. */
  begin(left: Float64Array, right: Float64Array, frames: number, startFrame: number): void {
    this.#firstFrame = startFrame;
    if (left[0] !== 0 || right[0] !== 0) {
      this.#leading = { length: 0, after: loudest(left, right, 0, Math.min(frames, BESIDE)) };
    }
  }

  /** @param length zeros up to index `at` of a block; may reach back into earlier blocks */
  end(left: Float64Array, right: Float64Array, frames: number, at: number, length: number, startFrame: number): void {
    const from = at - length;
    if (startFrame + from === this.#firstFrame) {
      this.#leading = { length, after: loudest(left, right, at, Math.min(frames, at + BESIDE)) };
    }
    if (length < LEAST_ZEROS) return;
    const before = from > 0 ? loudest(left, right, Math.max(0, from - BESIDE), from) : this.#before;
    const after = loudest(left, right, at, Math.min(frames, at + BESIDE));
    if (before >= LEAST_BESIDE && after >= LEAST_BESIDE) {
      this.runs.push({ startFrame: startFrame + from, endFrame: startFrame + at });
    }
  }

  /** @param length zeros at the end of the block, 0 for none; may reach back into earlier blocks */
  endOfBlock(left: Float64Array, right: Float64Array, frames: number, length: number): void {
    const from = frames - length;
    if (from > 0) this.#before = loudest(left, right, Math.max(0, from - BESIDE), from);
  }

  /** @param open zeros at the end */
  part(open: number): ZeroRunsPart {
    return { runs: this.runs, leading: this.#leading, open, before: this.#before };
  }

  /**
   * Joins the part that follows.
   *
   * @param open zeros at the end of what is known so far @param at frame where the next part begins @param frames its length
   * @returns zeros at the end of both
   */
  append(next: ZeroRunsPart, open: number, at: number, frames: number): number {
    if (this.#firstFrame < 0) {
      this.#firstFrame = at;
      this.#leading = next.leading;
    } else if (next.leading === null) {
      return open + frames;
    } else if (
      open + next.leading.length >= LEAST_ZEROS &&
      this.#before >= LEAST_BESIDE &&
      next.leading.after >= LEAST_BESIDE
    ) {
      this.runs.push({ startFrame: at - open, endFrame: at + next.leading.length });
    }
    for (const run of next.runs) this.runs.push(run);
    this.#before = next.before;
    return next.open;
  }
}

function loudest(left: Float64Array, right: Float64Array, from: number, to: number): number {
  let top = 0;
  for (let i = from; i < to; i++) top = Math.max(top, Math.abs(left[i]!), Math.abs(right[i]!));
  return top;
}
