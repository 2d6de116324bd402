/**
 * A loud lateral tone → what of the sound far above it stands at one place of the tone's own period, channel by channel. Noise stands nowhere; a tip that
 * leaves its wall and is caught again does so at one place.
 *
 * Each frame of 20 ms is laid over the tone's period (its phase by lock-in, frame by frame, a parabola through three of them: wow and flutter to 15 Hz do not
 * matter) and taken apart into the tone's harmonics from 4 to 15 kHz: their mean over the frames is locked, their scatter tells what noise leaves of it. Beside it, for
 * bursts that come at their place but never alike, the power above the high pass over the period, its fifth to eighth line: a bending generator modulates noise
 * up to the fourth.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { median } from '../signal/robust.ts';
import type { BandEstimator, EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';
import { type Fold, FoldedPeriod } from './foldedPeriod.ts';
import { HighPass, highPassGain } from './highPassSteep.ts';

export interface BurstSettings {
  /** Hz, as heard */
  readonly hz: number;
}

/** Means over the frames and the variance of each mean, |·|². */
export interface Lines {
  readonly re: readonly number[];
  readonly im: readonly number[];
  readonly variance: readonly number[];
}

export interface ChannelBursts {
  /** mean square of the tone */
  readonly tone: number;
  /** mean square above the high pass */
  readonly even: number;
  /** harmonics as captured, e^(iωt) of half the peak, from `first` on */
  readonly lines: Lines;
  /** of the power above the high pass over the period, the fifth to the eighth */
  readonly bursts: Lines;
}

export interface BurstReading {
  readonly hz: number;
  /** order of the first of `lines` */
  readonly first: number;
  readonly frames: number;
  readonly left: ChannelBursts;
  readonly right: ChannelBursts;
}

const FRAME_S = 0.02;
/** the high pass, in the tone's harmonics and in Hz at least */
const CORNER = 8;
/** Hz of the lines */
const [FROM_HZ, TO_HZ] = [4000, 15_000];
/** frames kept, 40 s; and power over the middle frame's that is a click's */
const MOST_FRAMES = 2000;
const CLICK = 2;
/** tone in a frame over or under the middle frame's that is the band's end, power */
const FADED = 1.25;
const [LOW_HZ, HIGH_HZ] = [80, 1200];
const LEAST_S = 0.8;

interface Frame {
  /** of the tone in the frame's middle, rad */
  readonly phase: number;
  readonly tone: { readonly left: number; readonly right: number };
  readonly left: Float64Array;
  readonly right: Float64Array;
}

class BurstEstimator implements BandEstimator<BurstReading> {
  private readonly omega: number;
  private readonly size: number;
  private readonly sampleRateHz: number;
  private readonly hz: number;
  private readonly held: { left: Float64Array; right: Float64Array };
  private readonly filters: { left: HighPass; right: HighPass };
  private readonly fold: FoldedPeriod;
  private readonly folds: (Fold & { readonly tone: Frame['tone'] })[] = [];
  private before: Frame | null = null;
  private now: Frame | null = null;
  private louder: 'left' | 'right' | null = null;
  private filled = 0;
  private frames = 0;

  constructor(sampleRateHz: number, { hz }: BurstSettings) {
    // whole periods, so that the tone's own image does not turn the phase
    this.size = Math.round((Math.max(2, Math.round(FRAME_S * hz)) / hz) * sampleRateHz);
    this.omega = (2 * Math.PI * hz) / sampleRateHz;
    this.sampleRateHz = sampleRateHz;
    this.hz = hz;
    this.held = { left: new Float64Array(this.size), right: new Float64Array(this.size) };
    const corner = Math.max(CORNER * hz, FROM_HZ);
    this.filters = { left: new HighPass(sampleRateHz, corner), right: new HighPass(sampleRateHz, corner) };
    const first = Math.ceil(Math.max(CORNER, FROM_HZ / hz));
    this.fold = new FoldedPeriod(first, Math.floor(Math.min(TO_HZ, 0.4 * sampleRateHz) / hz));
  }

  push({ left, right, frames }: StereoBlock): void {
    for (let n = 0; n < frames; n++) {
      this.held.left[this.filled] = left[n];
      this.held.right[this.filled] = right[n];
      if (++this.filled === this.size) this.look();
    }
  }

  private look(): void {
    const { size, omega, held, filters } = this;
    const sums = { lc: 0, ls: 0, rc: 0, rs: 0 };
    const [left, right] = [new Float64Array(size), new Float64Array(size)];
    for (let n = 0; n < size; n++) {
      const c = Math.cos(omega * n);
      const s = Math.sin(omega * n);
      sums.lc += held.left[n] * c;
      sums.ls += held.left[n] * s;
      sums.rc += held.right[n] * c;
      sums.rs += held.right[n] * s;
      left[n] = filters.left.next(held.left[n]);
      right[n] = filters.right.next(held.right[n]);
    }
    const of = (c: number, s: number): number => 2 * ((c / size) ** 2 + (s / size) ** 2);
    const tone = { left: of(sums.lc, sums.ls), right: of(sums.rc, sums.rs) };
    // one channel's phase throughout: the other may be upside down or weak
    this.louder ??= tone.left > tone.right ? 'left' : 'right';
    const start = this.louder === 'left' ? Math.atan2(-sums.ls, sums.lc) : Math.atan2(-sums.rs, sums.rc);
    const frame = { phase: start + (omega * (size - 1)) / 2, tone, left, right };
    // filters settle in the first frames
    if (this.before !== null && this.now !== null && this.frames >= 3 && this.folds.length < MOST_FRAMES) {
      this.folds.push({ ...this.folded(this.before, this.now, frame), tone: this.now.tone });
    }
    this.before = this.now;
    this.now = frame;
    this.filled = 0;
    this.frames += 1;
  }

  /** The middle one of three frames over the period. */
  private folded(before: Frame, now: Frame, after: Frame): Fold {
    const { omega, size } = this;
    const whole = omega * size;
    const step = (from: number, to: number): number => {
      const off = to - from - whole;
      return whole + off - 2 * Math.PI * Math.round(off / (2 * Math.PI));
    };
    const [back, on] = [step(before.phase, now.phase), step(now.phase, after.phase)];
    return this.fold.of(now, (n) => {
      const t = (n - (size - 1) / 2) / size;
      return now.phase + t * ((back + on) / 2 + (t * (on - back)) / 2);
    });
  }

  result(): BurstReading {
    const { folds, fold, hz } = this;
    const louder = this.louder ?? 'left';
    const middle = {
      left: CLICK * median(folds.map(({ left }) => left.power)),
      right: CLICK * median(folds.map(({ right }) => right.power)),
      tone: median(folds.map(({ tone }) => tone[louder])),
    };
    // a click is loud in one frame; a tip that is lost is so in all
    const used = folds.filter(
      ({ left, right, tone }) =>
        left.power <= middle.left &&
        right.power <= middle.right &&
        tone[louder] < FADED * middle.tone &&
        FADED * tone[louder] > middle.tone,
    );
    const mean = (values: readonly number[]): number =>
      values.reduce((sum, v) => sum + v, 0) / Math.max(1, used.length);
    const gain = Array.from({ length: fold.last - fold.first + 1 }, (_, i) =>
      highPassGain(this.sampleRateHz, Math.max(CORNER * hz, FROM_HZ), (fold.first + i) * hz),
    );
    const of = (channel: 'left' | 'right'): ChannelBursts => ({
      tone: mean(used.map(({ tone }) => tone[channel])),
      even: mean(used.map((one) => one[channel].power)),
      lines: meanLines(
        used.map((one) => one[channel].lines),
        gain,
      ),
      bursts: meanLines(
        used.map((one) => one[channel].bursts),
        [1, 1, 1, 1],
      ),
    });
    return { hz, first: fold.first, frames: used.length, left: of('left'), right: of('right') };
  }

  end(): void {}
}

/** @param frames of each: re and im in turn @param gain that is taken off again */
function meanLines(frames: readonly Float32Array[], gain: readonly number[]): Lines {
  const n = frames.length;
  const lines = gain.map((by, i) => {
    let [re, im, square] = [0, 0, 0];
    for (const frame of frames) {
      re += frame[2 * i] / Math.max(1, n);
      im += frame[2 * i + 1] / Math.max(1, n);
    }
    for (const frame of frames) square += (frame[2 * i] - re) ** 2 + (frame[2 * i + 1] - im) ** 2;
    return { re: re / by, im: im / by, variance: square / Math.max(1, n * (n - 1)) / by ** 2 };
  });
  return {
    re: lines.map(({ re }) => re),
    im: lines.map(({ im }) => im),
    variance: lines.map(({ variance }) => variance),
  };
}

export const burstKind: EstimatorKind<BurstSettings, BurstReading> = {
  /** tones in steps of level that the record file states, in both walls */
  settings({ band, startS, endS }: Passage, { sheet, sampleRateHz }: SideKnown): BurstSettings | null {
    if (band?.signal !== 'tone' || band.frequencyHz === null || band.sheetBand === null || sheet === null) return null;
    const cut = sheet.bands[band.sheetBand];
    const { frequencyHz } = band;
    if (cut?.motion !== 'lateral' || cut.peakVelocityCmS === undefined || endS - startS < LEAST_S) return null;
    if (!(frequencyHz >= LOW_HZ && frequencyHz <= HIGH_HZ && CORNER * frequencyHz < 0.35 * sampleRateHz)) return null;
    const steps = new Set(
      sheet.bands.flatMap(({ signal, motion, frequencyHz: hz, peakVelocityCmS: v }) =>
        signal === 'tone' && motion === 'lateral' && hz === cut.frequencyHz && v !== undefined ? [v] : [],
      ),
    );
    return steps.size >= 3 ? { hz: frequencyHz } : null;
  },
  begin: (sampleRateHz, settings) => new BurstEstimator(sampleRateHz, settings),
};
