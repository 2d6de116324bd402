/**
 * Spectra of the bands, to look at: what stands beside a tone, under a leak, in a silent groove. No figure rests on them.
 *
 * Level in dB re a full-scale sine, of the strongest line in each step of 1/24 octave; for one-sided tones also a close
 * view around the tone, in dB re the driven channel's line.
 *
 * @checked bandSpectra.test.ts
 */

import type { StereoBlock } from '../capture/recording.ts';
import { powerOfTwo, WelchSpectrum } from '../signal/spectra.ts';
import type { BandEstimator, EstimatorKind } from './bandEstimator.ts';
import { CHANNELS } from './channels.ts';
import type { Curve } from './finding.ts';

/** s from the start of a band; enough to average, little to read */
const MOST_S = 4;
const STEPS_PER_OCTAVE = 24;
const FROM_HZ = 8;
/** bands looked at, at most: a document stays small enough to keep */
const MOST_BANDS = 60;
const LEAST_POINTS = 1024;
/** half the width of the close view, Hz */
const CLOSE_HZ = 60;
/** dB; nothing that a converter delivers lies under it */
const FLOOR_DB = -160;

const db = (power: number): number => Math.max(FLOOR_DB, 10 * Math.log10(Math.max(1e-20, power)));
/** a full-scale sine has the mean square 1/2 */
const SINE = 2;

/** Power of two at or under `value`. */

export interface SpectrumSettings {
  readonly band: number;
  /** points of a transform: of the whole view, and of the close one, which only a one-sided tone has */
  readonly points: number;
  readonly closePoints: number | null;
  /** Hz, and the channel it is cut in */
  readonly tone: { readonly frequencyHz: number; readonly driven: 'left' | 'right' } | null;
}

/** Curves, ready to be kept. */
export const spectrumKind: EstimatorKind<SpectrumSettings, Curve[]> = {
  settings({ band, startS, endS }, { sampleRateHz, withSpectra }) {
    if (!withSpectra || band === null || band.index >= MOST_BANDS) return null;
    const frames = Math.min(MOST_S, endS - startS) * sampleRateHz;
    const points = (most: number): number => powerOfTwo(Math.min(powerOfTwo(most), frames));
    if (!(points(sampleRateHz / 2.5) >= LEAST_POINTS)) return null;
    const { signal, frequencyHz, motion } = band;
    const tone =
      signal === 'tone' && frequencyHz !== null && (motion === 'left' || motion === 'right')
        ? { frequencyHz, driven: motion }
        : null;
    const closePoints = tone === null ? null : points(sampleRateHz * 1.5);
    return { band: band.index, points: points(sampleRateHz / 2.5), closePoints, tone };
  },
  begin: (sampleRateHz, settings) => new SpectrumEstimator(sampleRateHz, settings),
};

class SpectrumEstimator implements BandEstimator<Curve[]> {
  private readonly settings: SpectrumSettings;
  private readonly wide: WelchSpectrum;
  private readonly close: WelchSpectrum | null;
  private left: number;

  constructor(sampleRateHz: number, settings: SpectrumSettings) {
    const welch = (points: number): WelchSpectrum =>
      new WelchSpectrum(sampleRateHz, points, 'blackman-harris-periodic');
    this.settings = settings;
    this.wide = welch(settings.points);
    this.close = settings.closePoints === null ? null : welch(settings.closePoints);
    this.left = Math.round(MOST_S * sampleRateHz);
  }

  push({ left, right, frames }: StereoBlock): void {
    const take = Math.min(frames, this.left);
    if (take === 0) return;
    this.wide.push(left, right, take);
    this.close?.push(left, right, take);
    this.left -= take;
  }

  /** `spectrum` of both channels, and `crosstalk-spectrum` where one channel is driven. */
  result(): Curve[] {
    const wide = this.wide.spectrum();
    if (wide.segments === 0) return [];
    const scale = wide.lineBandwidthHz * SINE;
    const whole = CHANNELS.map((channel): Curve => {
      const density = channel === 'left' ? wide.leftDensity : wide.rightDensity;
      const { band } = this.settings;
      return { quantity: 'spectrum', channel, band, ...steps(density, wide.binHz, scale), xUnit: 'Hz', yUnit: 'dB' };
    });
    return [...whole, ...this.closeView()];
  }

  private closeView(): Curve[] {
    const { tone, band } = this.settings;
    const close = this.close?.spectrum();
    if (tone === null || close === undefined || close.segments === 0) return [];
    const from = Math.max(1, Math.floor((tone.frequencyHz - CLOSE_HZ) / close.binHz));
    const to = Math.min(close.leftDensity.length - 1, Math.ceil((tone.frequencyHz + CLOSE_HZ) / close.binHz));
    const driven = tone.driven === 'left' ? close.leftDensity : close.rightDensity;
    let peak = 0;
    for (let k = from; k <= to; k++) peak = Math.max(peak, driven[k]);
    if (!(peak > 0)) return [];
    const x = Array.from({ length: to - from + 1 }, (_, i) => (from + i) * close.binHz);
    return CHANNELS.map((channel) => {
      const density = channel === 'left' ? close.leftDensity : close.rightDensity;
      const y = x.map((_, i) => db(density[from + i] / peak));
      return { quantity: 'crosstalk-spectrum', channel, band, x, y, xUnit: 'Hz', yUnit: 'dB' };
    });
  }

  end(): void {}
}

/** Strongest bin in each step; steps narrower than a bin are left out. */
function steps(density: Float64Array, binHz: number, scale: number): { x: number[]; y: number[] } {
  const x: number[] = [];
  const y: number[] = [];
  const ratio = 2 ** (1 / STEPS_PER_OCTAVE);
  let from = Math.max(1, Math.ceil(FROM_HZ / binHz));
  while (from < density.length) {
    const to = Math.max(from + 1, Math.min(density.length, Math.floor(from * ratio)));
    let best = from;
    for (let k = from; k < to; k++) if (density[k] > density[best]) best = k;
    x.push(best * binHz);
    y.push(db(density[best] * scale));
    from = to;
  }
  return { x, y };
}
