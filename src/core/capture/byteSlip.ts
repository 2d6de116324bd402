/**
 * Bytes that are missing or too many in mid-file, and no whole number of samples: from there on every sample is made of the low bytes of one and the high
 * byte of another. That is noise up to full scale, as likely here as there and from sample to sample without any relation, whatever was recorded; no
 * groove and no preamp makes that. Looked at in 512 frames of every 4096.
 *
 * Where what was recorded is so weak that a low byte hardly changes, it is not told.
 *
 * @checked byteSlip.test.ts
 */
const EVERY = 4096;
const LENGTH = 512;
/** mean square of numbers that lie evenly between −1 and 1 is ⅓; of a tone in step with the rate there are few that differ */
const LEAST_POWER = 0.22;
const MOST_POWER = 0.46;
const LEAST_PEAK = 0.9;
/** of the mean square: what a number and the next have in common, and the one after that; of any tone one of both is ½ or more */
const MOST_IN_COMMON = 0.45;
/** numbers as likely here as there hit full scale once in ten thousand; of what clips many do */
const TOP = 0.9999;
const MOST_TOPS = 3;
/** s of it one after the other */
const LEAST_S = 0.25;
const LEAST_LOOKS = 3;
/** more runs than this are no slip */
const MOST_RUNS = 1000;

/** Looks that all saw it, by their numbers from the first frame: from the first to the last of them. */
export interface SlipRun {
  readonly from: number;
  to: number;
}

export class ByteSlip {
  readonly #runs: SlipRun[] = [];

  push(left: Float64Array, right: Float64Array, frames: number, startFrame: number): void {
    const last = Math.floor((startFrame + frames - LENGTH) / EVERY);
    for (let look = Math.ceil(startFrame / EVERY); look <= last; look++) {
      const from = look * EVERY - startFrame;
      const [l, r] = [lookAt(left, from), lookAt(right, from)];
      // of a tone in step with the rate few numbers differ, and one channel's may happen to fit
      if (l.full && r.full && (l.apart || r.apart)) this.#add({ from: look, to: look });
    }
  }

  #add(run: SlipRun): void {
    const before = this.#runs.at(-1);
    if (before !== undefined && run.from === before.to + 1) before.to = run.to;
    else if (this.#runs.length < MOST_RUNS) this.#runs.push({ ...run });
  }

  part(): SlipRun[] {
    return this.#runs.map((run) => ({ ...run }));
  }

  /** Takes over what another saw of the frames that follow. */
  append(runs: readonly SlipRun[]): void {
    for (const run of runs) this.#add(run);
  }

  /** The first frame from which on the samples are made of the wrong bytes, as early as it may be; null where none is. */
  firstFrame(sampleRateHz: number): number | null {
    const least = Math.max(LEAST_LOOKS, (LEAST_S * sampleRateHz) / EVERY);
    const run = this.#runs.find(({ from, to }) => to + 1 - from >= least);
    return run === undefined ? null : Math.max(0, run.from - 1) * EVERY;
  }
}

/** Whether numbers fill the range as chance would, and whether they stand apart from their neighbours. */
function lookAt(x: Float64Array, from: number): { full: boolean; apart: boolean } {
  let power = 0;
  let peak = 0;
  let tops = 0;
  // each by itself: taken out of an array they would be objects, made anew at every sample
  let next = 0;
  let afterNext = 0;
  let before = 0;
  let beforeThat = 0;
  for (let n = from; n < from + LENGTH; n++) {
    const v = x[n];
    power += v * v;
    peak = Math.max(peak, Math.abs(v));
    if (Math.abs(v) > TOP) tops++;
    next += v * before;
    afterNext += v * beforeThat;
    beforeThat = before;
    before = v;
  }
  return {
    full: power > LEAST_POWER * LENGTH && power < MOST_POWER * LENGTH && peak > LEAST_PEAK && tops <= MOST_TOPS,
    apart: Math.max(Math.abs(next), Math.abs(afterNext)) < MOST_IN_COMMON * power,
  };
}
