/**
 * Spectra of the bands, to look at: what stands beside a tone, under a leak, in a silent groove. No figure rests on them.
 *
 * Level in dB re a full-scale sine, of the strongest line in each step of 1/24 octave; for one-sided tones also a close
 * view around the tone, in dB re the driven channel's line.
 */
import type { Recording } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import { WelchSpectrum } from '../signal/spectra.ts';
import type { Curve } from './finding.ts';

/** s from the middle of a band; enough to average, little to read */
const MOST_S = 4;
const STEPS_PER_OCTAVE = 24;
const FROM_HZ = 8;
/** bands looked at, at most: a document stays small enough to keep */
const MOST_BANDS = 60;
/** half the width of the close view, Hz */
const CLOSE_HZ = 60;
/** dB; nothing that a converter delivers lies under it */
const FLOOR_DB = -160;

const db = (power: number): number => Math.max(FLOOR_DB, 10 * Math.log10(Math.max(1e-20, power)));
/** a full-scale sine has the mean square 1/2 */
const SINE = 2;

/** Power of two at or under `value`. */
const powerOfTwo = (value: number): number => 2 ** Math.floor(Math.log2(value));

async function spectrumOf(recording: Recording, band: Band, size: number) {
  const { sampleRateHz, frames } = recording.format;
  const middle = ((band.startS + band.endS) / 2) * sampleRateHz;
  const half = Math.min(MOST_S, band.endS - band.startS) * sampleRateHz * 0.5;
  const fromFrame = Math.max(0, Math.round(middle - half));
  const toFrame = Math.min(frames, Math.round(middle + half));
  const points = powerOfTwo(Math.min(size, toFrame - fromFrame));
  if (!(points >= 1024)) return null;
  const welch = new WelchSpectrum(sampleRateHz, points, 'blackman-harris-periodic');
  for await (const block of recording.blocks({ fromFrame, toFrame })) welch.push(block.left, block.right, block.frames);
  return welch.spectrum();
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

/**
 * @returns `spectrum` of every band (both channels), and `crosstalk-spectrum` of each band that drives one channel
 */
export async function bandSpectra(recording: Recording, bands: readonly Band[]): Promise<Curve[]> {
  const curves: Curve[] = [];
  const { sampleRateHz } = recording.format;
  for (const band of bands.slice(0, MOST_BANDS)) {
    const wide = await spectrumOf(recording, band, powerOfTwo(sampleRateHz / 2.5));
    if (wide === null || wide.segments === 0) continue;
    const scale = wide.lineBandwidthHz * SINE;
    for (const channel of ['left', 'right'] as const) {
      const density = channel === 'left' ? wide.leftDensity : wide.rightDensity;
      curves.push({
        quantity: 'spectrum',
        channel,
        band: band.index,
        ...steps(density, wide.binHz, scale),
        xUnit: 'Hz',
        yUnit: 'dB',
      });
    }
    curves.push(...(await closeView(recording, band)));
  }
  return curves;
}

async function closeView(recording: Recording, band: Band): Promise<Curve[]> {
  const { frequencyHz, motion, signal } = band;
  if (signal !== 'tone' || frequencyHz === null || (motion !== 'left' && motion !== 'right')) return [];
  const close = await spectrumOf(recording, band, powerOfTwo(recording.format.sampleRateHz * 1.5));
  if (close === null || close.segments === 0) return [];
  const from = Math.max(1, Math.floor((frequencyHz - CLOSE_HZ) / close.binHz));
  const to = Math.min(close.leftDensity.length - 1, Math.ceil((frequencyHz + CLOSE_HZ) / close.binHz));
  const driven = motion === 'left' ? close.leftDensity : close.rightDensity;
  let peak = 0;
  for (let k = from; k <= to; k++) peak = Math.max(peak, driven[k]);
  if (!(peak > 0)) return [];
  const x = Array.from({ length: to - from + 1 }, (_, i) => (from + i) * close.binHz);
  return (['left', 'right'] as const).map((channel) => {
    const density = channel === 'left' ? close.leftDensity : close.rightDensity;
    return {
      quantity: 'crosstalk-spectrum',
      channel,
      band: band.index,
      x,
      y: x.map((_, i) => db(density[from + i] / peak)),
      xUnit: 'Hz',
      yUnit: 'dB',
    };
  });
}
