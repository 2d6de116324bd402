/**
 * Both channels brought down to complex baseband around one tone, and decimated to about 1 kHz: the front end of every
 * narrow-band figure.
 *
 *   z[n] = 2 · lowpass( x[n] · e^(−2πi f n / fs) ),   |z| = peak amplitude of the tone
 *
 * Stage 1 multiplies D samples with a table of e^(−2πi f k / fs) and adds them up (a boxcar; its nulls lie on the
 * multiples of the new rate, near 12 kHz), stages 2 and 3 are Kaiser low passes by 6 and by 2. Flat within 0.1 % to
 * ±220 Hz, 70 dB down from ±400 Hz.
 *
 * Phase is counted from frame 0 of the recording, so two mixers on one recording share their phase reference.
 * Cost: four multiply-adds a frame in stage 1, about as much again in all later stages.
 *
 * @checked toneMixer.test.ts
 */
import { LANES, LaneDecimator } from './laneDecimator.ts';
import { lowpassTaps } from './lowpass.ts';
import { lentArray, takeBack, workArray } from './workArrays.ts';

/** flat to here either side of the tone, Hz */
export const BASEBAND_PASS_HZ = 220;
const STOP_HZ = 400;
const MIDDLE_FACTOR = 6;
const LAST_FACTOR = 2;
const CHUNK = 2048;

/** between the stages of one run; no run is begun within another */
const first = new Float64Array(LANES * CHUNK);
const second = new Float64Array(LANES * (CHUNK / MIDDLE_FACTOR + 2));
const third = new Float64Array(LANES * (CHUNK / MIDDLE_FACTOR / LAST_FACTOR + 2));

/** Complex baseband of both channels around `mixHz`, at equal times. */
export interface Baseband {
  readonly rateHz: number;
  readonly mixHz: number;
  /** s from the recording's first frame to sample 0 */
  readonly startS: number;
  readonly length: number;
  readonly leftRe: Float64Array;
  readonly leftIm: Float64Array;
  readonly rightRe: Float64Array;
  readonly rightIm: Float64Array;
}

export class ToneMixer {
  readonly rateHz: number;
  private readonly sampleRateHz: number;
  private readonly mixHz: number;
  private readonly boxcar: number;
  private readonly cos: Float64Array;
  private readonly sin: Float64Array;
  private readonly middle: LaneDecimator;
  private readonly last: LaneDecimator;
  private readonly heldLeft: Float64Array;
  private readonly heldRight: Float64Array;
  private held = 0;
  private firstFrame = -1;
  private nextFrame = 0;
  private store: Float64Array<ArrayBuffer>;
  private stored = 0;
  private taken = 0;

  /**
   * @param sampleRateHz Hz, 8000 up
   * @param mixHz the tone as heard, Hz, within ±100 Hz of it; 20 up to just under half the sample rate
   */
  constructor(sampleRateHz: number, mixHz: number) {
    if (!(sampleRateHz >= 8000 && sampleRateHz < Infinity)) {
      throw new RangeError(`sampleRateHz ${sampleRateHz} must be at least 8000`);
    }
    if (!(mixHz >= 20 && mixHz < sampleRateHz / 2)) {
      throw new RangeError(`mixHz ${mixHz} must be from 20 to below ${sampleRateHz / 2}`);
    }
    this.sampleRateHz = sampleRateHz;
    this.mixHz = mixHz;
    this.boxcar = Math.max(1, Math.round(sampleRateHz / 12_000));
    const middleRate = sampleRateHz / this.boxcar;
    const lastRate = middleRate / MIDDLE_FACTOR;
    this.rateHz = lastRate / LAST_FACTOR;
    this.cos = new Float64Array(this.boxcar);
    this.sin = new Float64Array(this.boxcar);
    for (let k = 0; k < this.boxcar; k++) {
      // 2 / D: twice for the tone's peak, 1/D for the boxcar's mean
      const angle = (2 * Math.PI * mixHz * k) / sampleRateHz;
      this.cos[k] = (2 / this.boxcar) * Math.cos(angle);
      this.sin[k] = (-2 / this.boxcar) * Math.sin(angle);
    }
    this.heldLeft = new Float64Array(this.boxcar);
    this.heldRight = new Float64Array(this.boxcar);
    this.middle = new LaneDecimator(
      lowpassTaps({ sampleRateHz: middleRate, passHz: 260, stopHz: lastRate - STOP_HZ, attenuationDb: 80 }),
      MIDDLE_FACTOR,
    );
    this.last = new LaneDecimator(
      lowpassTaps({ sampleRateHz: lastRate, passHz: BASEBAND_PASS_HZ, stopHz: STOP_HZ, attenuationDb: 70 }),
      LAST_FACTOR,
    );
    this.store = lentArray(LANES * 4096);
  }

  /** samples of baseband that wait to be taken */
  get waiting(): number {
    return this.stored;
  }

  /** s of baseband that wait to be taken */
  get waitingS(): number {
    return this.stored / this.rateHz;
  }

  /**
   * Frames must follow one another without a hole.
   * @param startFrame index in the recording of `left[from]`
   */
  push(left: Float64Array, right: Float64Array, from: number, to: number, startFrame: number): void {
    if (!(from >= 0 && from <= to && to <= left.length && to <= right.length)) {
      throw new RangeError(`from ${from} to ${to} must lie in blocks of ${left.length} and ${right.length} frames`);
    }
    if (this.firstFrame < 0) {
      this.firstFrame = startFrame;
      this.nextFrame = startFrame;
    } else if (startFrame !== this.nextFrame) {
      throw new RangeError(`startFrame ${startFrame} must follow the last frame taken, ${this.nextFrame - 1}`);
    }
    const size = this.boxcar;
    let at = from;
    while (at < to) {
      if (this.held > 0 || to - at < size) {
        const take = Math.min(size - this.held, to - at);
        this.heldLeft.set(left.subarray(at, at + take), this.held);
        this.heldRight.set(right.subarray(at, at + take), this.held);
        this.held += take;
        at += take;
        this.nextFrame += take;
        if (this.held === size) {
          this.mixRun(this.heldLeft, this.heldRight, 0, 1, this.nextFrame - size);
          this.held = 0;
        }
      } else {
        const groups = Math.min(CHUNK, Math.floor((to - at) / size));
        this.mixRun(left, right, at, groups, this.nextFrame);
        at += groups * size;
        this.nextFrame += groups * size;
      }
    }
  }

  /** `groups` boxcars from `at`, the first frame of which is `frame` in the recording. */
  private mixRun(left: Float64Array, right: Float64Array, at: number, groups: number, frame: number): void {
    const { cos, sin, boxcar } = this;
    const cyclesPerFrame = this.mixHz / this.sampleRateHz;
    const step = -2 * Math.PI * ((cyclesPerFrame * boxcar) % 1);
    const stepCos = Math.cos(step);
    const stepSin = Math.sin(step);
    const turns = cyclesPerFrame * frame;
    let c = Math.cos(-2 * Math.PI * (turns - Math.floor(turns)));
    let s = Math.sin(-2 * Math.PI * (turns - Math.floor(turns)));
    let p = at;
    let o = 0;
    let g = 0;
    // two groups at a time: their sums do not wait for one another
    for (; g + 1 < groups; g += 2) {
      let lr = 0;
      let li = 0;
      let rr = 0;
      let ri = 0;
      let lr2 = 0;
      let li2 = 0;
      let rr2 = 0;
      let ri2 = 0;
      let q = p + boxcar;
      for (let k = 0; k < boxcar; k++, p++, q++) {
        const co = cos[k];
        const si = sin[k];
        const l = left[p];
        const r = right[p];
        const l2 = left[q];
        const r2 = right[q];
        lr += l * co;
        li += l * si;
        rr += r * co;
        ri += r * si;
        lr2 += l2 * co;
        li2 += l2 * si;
        rr2 += r2 * co;
        ri2 += r2 * si;
      }
      p = q;
      first[o] = lr * c - li * s;
      first[o + 1] = lr * s + li * c;
      first[o + 2] = rr * c - ri * s;
      first[o + 3] = rr * s + ri * c;
      const next = c * stepCos - s * stepSin;
      s = c * stepSin + s * stepCos;
      c = next;
      first[o + 4] = lr2 * c - li2 * s;
      first[o + 5] = lr2 * s + li2 * c;
      first[o + 6] = rr2 * c - ri2 * s;
      first[o + 7] = rr2 * s + ri2 * c;
      o += 2 * LANES;
      const turned = c * stepCos - s * stepSin;
      s = c * stepSin + s * stepCos;
      c = turned;
    }
    for (; g < groups; g++) {
      let lr = 0;
      let li = 0;
      let rr = 0;
      let ri = 0;
      for (let k = 0; k < boxcar; k++) {
        const l = left[p];
        const r = right[p];
        p += 1;
        lr += l * cos[k];
        li += l * sin[k];
        rr += r * cos[k];
        ri += r * sin[k];
      }
      first[o] = lr * c - li * s;
      first[o + 1] = lr * s + li * c;
      first[o + 2] = rr * c - ri * s;
      first[o + 3] = rr * s + ri * c;
      o += LANES;
      const turned = c * stepCos - s * stepSin;
      s = c * stepSin + s * stepCos;
      c = turned;
    }
    const middleFrames = this.middle.push(first, groups, second);
    const frames = this.last.push(second, middleFrames, third);
    const need = LANES * (this.stored + frames);
    if (need > this.store.length) {
      const grown = lentArray(need + (need >> 1));
      grown.set(this.store.subarray(0, LANES * this.stored));
      takeBack(this.store);
      this.store = grown;
    }
    this.store.set(third.subarray(0, LANES * frames), LANES * this.stored);
    this.stored += frames;
  }

  /** The first `most` samples that wait, and forgets them. Its series are lent, see workArrays.ts. */
  take(most = Number.POSITIVE_INFINITY): Baseband {
    const baseband = this.peek(0, most);
    this.forget(baseband.length);
    return baseband;
  }

  /** @param count of the samples that wait, the first ones */
  forget(count: number): void {
    this.store.copyWithin(0, LANES * count, LANES * this.stored);
    this.taken += count;
    this.stored -= count;
  }

  /** Of the samples that wait those from one index to another, kept. Its series are lent. */
  peek(from = 0, to = Number.POSITIVE_INFINITY): Baseband {
    const length = Math.max(0, Math.min(to, this.stored) - from);
    const delay =
      (this.boxcar - 1) / 2 + this.boxcar * (this.middle.delayFrames + MIDDLE_FACTOR * this.last.delayFrames);
    const perOutput = this.boxcar * MIDDLE_FACTOR * LAST_FACTOR;
    return {
      rateHz: this.rateHz,
      mixHz: this.mixHz,
      startS: (Math.max(0, this.firstFrame) + delay + (this.taken + from) * perOutput) / this.sampleRateHz,
      length,
      leftRe: this.lane(0, from, length),
      leftIm: this.lane(1, from, length),
      rightRe: this.lane(2, from, length),
      rightIm: this.lane(3, from, length),
    };
  }

  private lane(lane: number, from: number, length: number): Float64Array {
    const values = workArray(length);
    for (let n = 0; n < length; n++) values[n] = this.store[LANES * (from + n) + lane];
    return values;
  }

  /** Gives back what it holds; nothing may be pushed or asked for afterwards. */
  end(): void {
    this.middle.end();
    this.last.end();
    takeBack(this.store);
    this.store = new Float64Array(0);
    this.stored = 0;
  }
}
