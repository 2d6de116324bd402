/** A speed trace's spectrum in steps of 1/12 octave: enough to look at, and small to keep. */
import type { FlutterSpectrum } from './flutter.ts';

export interface SpectrumPoints {
  /** Hz, 0.2 to 200 */
  readonly hz: readonly number[];
  /** peak deviation of a sine that would put as much into the step, noise taken out, ratio */
  readonly peak: readonly number[];
}

const FROM_HZ = 0.2;
const TO_HZ = 200;
const STEP = 2 ** (1 / 12);
const HALF_STEP = 2 ** (1 / 24);

export function spectrumPoints({ binHz, heard, noise }: FlutterSpectrum): SpectrumPoints {
  const hz: number[] = [];
  const peak: number[] = [];
  for (let middle = FROM_HZ; middle <= TO_HZ; middle *= STEP) {
    const from = Math.max(1, Math.round(middle / HALF_STEP / binHz));
    const to = Math.min(heard.length - 1, Math.max(from, Math.round((middle * HALF_STEP) / binHz) - 1));
    let power = 0;
    for (let k = from; k <= to; k++) power += Math.max(0, heard[k] - noise[k]) * binHz;
    hz.push(middle);
    peak.push(Math.sqrt(2 * power));
  }
  return { hz, peak };
}
