/**
 * A loud lateral tone → how the sound far above it is spread over the tone's own period, channel by channel. Noise is spread evenly; a tip that leaves its
 * wall and lands again does so at one place of the period.
 *
 * High pass of fourth order at eight times the tone; the tone's phase by lock-in over 40 ms, so that wow does not matter.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { median } from '../signal/robust.ts';
import type { BandEstimator, EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';

export interface BurstSettings {
  /** Hz, as heard */
  readonly hz: number;
}

export interface ChannelBursts {
  /** mean square of the tone */
  readonly tone: number;
  /** mean square above eight times the tone that stands at one place of the period, and of the rest */
  readonly locked: number;
  readonly even: number;
}

export interface BurstReading {
  readonly left: ChannelBursts;
  readonly right: ChannelBursts;
}

const BINS = 32;
const FRAME_S = 0.04;
const CORNER = 8;
/** frames kept, 40 s; and power over the middle frame's that is a click's */
const MOST_FRAMES = 1000;
const CLICK = 2;
const [LOW_HZ, HIGH_HZ] = [80, 1200];
const LEAST_S = 0.8;

/** Two equal sections of a Butterworth-like high pass, Q 0.6, direct form II transposed. */
class HighPass {
  private readonly b: number;
  private readonly a1: number;
  private readonly a2: number;
  private readonly state = [0, 0, 0, 0];

  constructor(sampleRateHz: number, hz: number) {
    const k = Math.tan((Math.PI * hz) / sampleRateHz);
    const norm = 1 / (1 + k / 0.6 + k * k);
    this.b = norm;
    this.a1 = 2 * (k * k - 1) * norm;
    this.a2 = (1 - k / 0.6 + k * k) * norm;
  }

  next(x: number): number {
    const { b, a1, a2, state } = this;
    let v = x;
    for (let s = 0; s < 4; s += 2) {
      const y = b * v + state[s];
      state[s] = -2 * b * v - a1 * y + state[s + 1];
      state[s + 1] = b * v - a2 * y;
      v = y;
    }
    return v;
  }
}

class BurstEstimator implements BandEstimator<BurstReading> {
  private readonly omega: number;
  private readonly size: number;
  private readonly held: { left: Float64Array; right: Float64Array };
  private readonly filters: { left: HighPass; right: HighPass };
  /** of each frame: sums of left, of right, and how many, place by place */
  private readonly spread: { left: Float64Array; right: Float64Array; count: Float64Array }[] = [];
  private readonly tones = { left: 0, right: 0, frames: 0 };
  private filled = 0;
  private frames = 0;

  constructor(sampleRateHz: number, { hz }: BurstSettings) {
    // whole periods, so that the tone's own image does not turn the phase
    this.size = Math.round((Math.max(2, Math.round(FRAME_S * hz)) / hz) * sampleRateHz);
    this.omega = (2 * Math.PI * hz) / sampleRateHz;
    this.held = { left: new Float64Array(this.size), right: new Float64Array(this.size) };
    const corner = Math.min(CORNER * hz, 0.4 * sampleRateHz);
    this.filters = { left: new HighPass(sampleRateHz, corner), right: new HighPass(sampleRateHz, corner) };
  }

  push({ left, right, frames }: StereoBlock): void {
    for (let n = 0; n < frames; n++) {
      this.held.left[this.filled] = left[n];
      this.held.right[this.filled] = right[n];
      if (++this.filled === this.size) this.look();
    }
  }

  private look(): void {
    const { size, omega, held, filters, tones } = this;
    const bins = { left: new Float64Array(BINS), right: new Float64Array(BINS), count: new Float64Array(BINS) };
    const sums = { lc: 0, ls: 0, rc: 0, rs: 0 };
    for (let n = 0; n < size; n++) {
      const c = Math.cos(omega * n);
      const s = Math.sin(omega * n);
      sums.lc += held.left[n] * c;
      sums.ls += held.left[n] * s;
      sums.rc += held.right[n] * c;
      sums.rs += held.right[n] * s;
    }
    tones.left += 2 * ((sums.lc / size) ** 2 + (sums.ls / size) ** 2);
    tones.right += 2 * ((sums.rc / size) ** 2 + (sums.rs / size) ** 2);
    tones.frames += 1;
    // the louder channel's phase: one may be upside down or weak
    const useLeft = sums.lc ** 2 + sums.ls ** 2 > sums.rc ** 2 + sums.rs ** 2;
    const phase = useLeft ? Math.atan2(-sums.ls, sums.lc) : Math.atan2(-sums.rs, sums.rc);
    // filters settle in the first frames
    const counts = this.frames >= 2 && this.spread.length < MOST_FRAMES;
    for (let n = 0; n < size; n++) {
      const l = filters.left.next(held.left[n]);
      const r = filters.right.next(held.right[n]);
      if (!counts) continue;
      const cycles = (omega * n + phase) / (2 * Math.PI);
      const bin = Math.floor((cycles - Math.floor(cycles)) * BINS) % BINS;
      bins.left[bin] += l * l;
      bins.right[bin] += r * r;
      bins.count[bin] += 1;
    }
    if (counts) this.spread.push(bins);
    this.filled = 0;
    this.frames += 1;
  }

  result(): BurstReading {
    const of = (channel: 'left' | 'right'): ChannelBursts => {
      // a click is loud in one frame; a tip that is lost is so in all
      const powers = this.spread.map((frame) => frame[channel].reduce((sum, v) => sum + v, 0));
      const most = CLICK * median(powers);
      const used = this.spread.filter((_, i) => powers[i] <= most);
      const mean = Array.from({ length: BINS }, (_, k) => {
        const count = used.reduce((sum, frame) => sum + frame.count[k], 0);
        return used.reduce((sum, frame) => sum + frame[channel][k], 0) / Math.max(1, count);
      });
      const even = median(mean);
      // what noise scatters about the middle is on both sides of it
      const over = mean.reduce((sum, v) => sum + (v - even), 0) / BINS;
      return { tone: this.tones[channel] / Math.max(1, this.tones.frames), locked: Math.max(0, over), even };
    };
    return { left: of('left'), right: of('right') };
  }

  end(): void {}
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
