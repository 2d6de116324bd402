/**
 * What the samples of a live input tell of the input itself, now: levels, tops at full scale, a source that has died, blocks
 * filled with zeros, right a copy of left. A channel count proves nothing: a mono source arrives as two channels that are alike.
 *
 * @checked inputWatch.test.ts
 */
import { FULL_SCALE } from '../capture/flatTops.ts';
import type { StereoBlock } from '../capture/recording.ts';
import { COPY_RESIDUE_DB, COPY_RESIDUE_STEPS, DEAD_BELOW_DB } from '../capture/sampleProblems.ts';
import { LEAST_BESIDE, LEAST_ZEROS, LONGEST_DROP_S } from '../capture/zeroRuns.ts';

export interface InputState {
  readonly heardS: number;
  /** highest sample of the last tenth of a second, dBFS; −200 for none */
  readonly peakDb: { readonly left: number; readonly right: number };
  /** highest of the last ten seconds, either channel */
  readonly loudestDb: number;
  /** s since a top lay flat on full scale; null: never in this listening */
  readonly clippedAgoS: number | null;
  /** s of exact zeros on both channels up to now */
  readonly zerosS: number;
  /** stretches of zeros in mid-signal: blocks that the computer filled in */
  readonly filled: number;
  /** of right against left, from the last second with sound */
  readonly channels: 'unknown' | 'apart' | 'copies' | 'left-dead' | 'right-dead';
}

/** the bars show two of these, half a wave of 20 Hz, and move at each, so that a sound that ends is seen soon; figures speak of eight, a tenth of a second */
const PEAK_S = 0.0125;
const OF_BARS = 2;
const OF_FIGURES = 8;
/** ten seconds */
const LOUDEST_WINDOWS = 800;
const COPY_S = 1;
const FLAT_TOP = 3;
/** seconds in a row that make a verdict on the channels */
const DEAD_S = 10;
const NOTHING_DB = -200;
const db = (peak: number): number => (peak > 0 ? Math.max(NOTHING_DB, 20 * Math.log10(peak)) : NOTHING_DB);

/** dBFS; −200 for none */
export interface NewestPeak {
  readonly count: number;
  readonly leftDb: number;
  readonly rightDb: number;
}

export class InputWatch {
  readonly #rate: number;
  readonly #step: number;
  #frames = 0;
  #zeros = 0;
  /** highest sample of the tenth of a second before them */
  #beforeZeros = 0;
  #filled = 0;
  #clippedAt: number | null = null;
  #flat = { left: 0, right: 0 };
  #window = { frames: 0, left: 0, right: 0 };
  /** highest sample of each of the last windows, round and round */
  readonly #tops = { left: new Float64Array(OF_FIGURES), right: new Float64Array(OF_FIGURES) };
  #peaks = 0;
  #newest: NewestPeak = { count: 0, leftDb: NOTHING_DB, rightDb: NOTHING_DB };
  readonly #loudest: number[] = [];
  #copy = { n: 0, l: 0, r: 0, ll: 0, rr: 0, lr: 0 };
  #channels: InputState['channels'] = 'unknown';
  #deadFor = { left: 0, right: 0 };

  constructor({ sampleRateHz, bitDepth }: { readonly sampleRateHz: number; readonly bitDepth: number }) {
    this.#rate = sampleRateHz;
    this.#step = 2 ** (1 - Math.min(24, bitDepth));
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    for (let at = 0; at < frames; ) {
      const untilPeak = Math.ceil(PEAK_S * this.#rate) - this.#window.frames;
      const untilCopy = Math.ceil(COPY_S * this.#rate) - this.#copy.n;
      const end = Math.min(frames, at + untilPeak, at + untilCopy);
      this.#topsAndZeros(left, right, at, end);
      this.#products(left, right, at, end);
      if (end - at === untilPeak) this.#closePeak();
      if (end - at === untilCopy) this.#judgeChannels();
      at = end;
    }
  }

  // sums are local while a block is gone through: a field that is written 96,000 times a second is a number made as often
  #topsAndZeros(left: Float64Array, right: Float64Array, from: number, to: number): void {
    const peak = this.#window;
    const flat = this.#flat;
    let topLeft = peak.left;
    let topRight = peak.right;
    let zeros = this.#zeros;
    let flatLeft = flat.left;
    let flatRight = flat.right;
    for (let i = from; i < to; i++) {
      const topL = Math.abs(left[i]);
      const topR = Math.abs(right[i]);
      if (topL === 0 && topR === 0) {
        if (zeros === 0) this.#beforeZeros = this.#loudestBefore(Math.max(topLeft, topRight));
        zeros += 1;
      } else if (zeros > 0) {
        this.#judgeZeros(zeros);
        zeros = 0;
      }
      flatLeft = topL >= FULL_SCALE ? flatLeft + 1 : 0;
      flatRight = topR >= FULL_SCALE ? flatRight + 1 : 0;
      if (flatLeft >= FLAT_TOP || flatRight >= FLAT_TOP) this.#clippedAt = this.#frames + i - from + 1;
      if (topL > topLeft) topLeft = topL;
      if (topR > topRight) topRight = topR;
    }
    this.#zeros = zeros;
    this.#flat = { left: flatLeft, right: flatRight };
    this.#window = { frames: peak.frames + to - from, left: topLeft, right: topRight };
    this.#frames += to - from;
  }

  #highest(windows: number): { left: number; right: number } {
    let left = 0;
    let right = 0;
    for (let n = this.#peaks - windows; n < this.#peaks; n++) {
      const at = (n + OF_FIGURES) % OF_FIGURES;
      left = Math.max(left, this.#tops.left[at]);
      right = Math.max(right, this.#tops.right[at]);
    }
    return { left, right };
  }

  /** @param top highest so far of the window that runs */
  #loudestBefore(top: number): number {
    const { left, right } = this.#highest(OF_FIGURES);
    return Math.max(top, left, right);
  }

  #judgeZeros(zeros: number): void {
    const isShort = zeros <= LONGEST_DROP_S * this.#rate;
    if (zeros >= LEAST_ZEROS && isShort && this.#beforeZeros >= LEAST_BESIDE) this.#filled += 1;
  }

  #closePeak(): void {
    const { left, right } = this.#window;
    this.#tops.left[this.#peaks % OF_FIGURES] = left;
    this.#tops.right[this.#peaks % OF_FIGURES] = right;
    this.#peaks += 1;
    const shown = this.#highest(OF_BARS);
    this.#newest = { count: this.#peaks, leftDb: db(shown.left), rightDb: db(shown.right) };
    this.#loudest.push(Math.max(left, right));
    if (this.#loudest.length > LOUDEST_WINDOWS) this.#loudest.shift();
    this.#window = { frames: 0, left: 0, right: 0 };
  }

  #products(left: Float64Array, right: Float64Array, from: number, to: number): void {
    const before = this.#copy;
    let l = before.l;
    let r = before.r;
    let ll = before.ll;
    let rr = before.rr;
    let lr = before.lr;
    for (let i = from; i < to; i++) {
      const x = left[i];
      const y = right[i];
      l += x;
      r += y;
      ll += x * x;
      rr += y * y;
      lr += x * y;
    }
    this.#copy = { n: before.n + to - from, l, r, ll, rr, lr };
  }

  /** Right as the best multiple of left, offsets removed; what is left over tells a copy from a second generator. */
  #judgeChannels(): void {
    const { n, l, r, ll, rr, lr } = this.#copy;
    this.#copy = { n: 0, l: 0, r: 0, ll: 0, rr: 0, lr: 0 };
    const powerL = ll - l ** 2 / n;
    const powerR = rr - r ** 2 / n;
    const product = lr - (l * r) / n;
    const least = n * (10 * this.#step) ** 2;
    if (Math.max(powerL, powerR) < least) return;
    const dead = 10 ** (-DEAD_BELOW_DB / 10);
    this.#deadFor.left = powerL < powerR * dead ? this.#deadFor.left + COPY_S : 0;
    this.#deadFor.right = powerR < powerL * dead ? this.#deadFor.right + COPY_S : 0;
    if (this.#deadFor.left >= DEAD_S) this.#channels = 'left-dead';
    else if (this.#deadFor.right >= DEAD_S) this.#channels = 'right-dead';
    else if (Math.min(powerL, powerR) < least) return;
    else {
      const residue = powerR - product ** 2 / powerL;
      const most = Math.max(powerR * 10 ** (COPY_RESIDUE_DB / 10), n * (COPY_RESIDUE_STEPS * this.#step) ** 2);
      this.#channels = residue <= most ? 'copies' : 'apart';
    }
  }

  /** s of exact zeros on both channels up to now */
  get zerosS(): number {
    return this.#zeros / this.#rate;
  }

  /** dBFS of the highest sample of the last tenth of a second, either channel */
  get loudestLatelyDb(): number {
    const { left, right } = this.#highest(OF_FIGURES);
    return db(Math.max(left, right));
  }

  /** For bars that move with the sound: the highest sample of the newest fortieth of a second, told eighty times a second, and how often it was. */
  get newestPeak(): NewestPeak {
    return this.#newest;
  }

  get state(): InputState {
    const shown = this.#highest(OF_FIGURES);
    return {
      heardS: this.#frames / this.#rate,
      peakDb: { left: db(shown.left), right: db(shown.right) },
      loudestDb: db(this.#loudest.reduce((top, one) => Math.max(top, one), 0)),
      clippedAgoS: this.#clippedAt === null ? null : (this.#frames - this.#clippedAt) / this.#rate,
      zerosS: this.zerosS,
      filled: this.#filled,
      channels: this.#channels,
    };
  }
}
