/** Spectra of quiet stretches written down: a floor in either channel, and mains lines in it. */
import type { StereoSpectrum } from '../signal/spectra.ts';
import type { QuietPart, QuietReading } from './quietEstimator.ts';

/** Hz between the bins of the fine spectrum, and of the coarse one */
const [FINE, COARSE] = [0.5, 25];

export interface Quiet {
  /** unit²/Hz: of the noise at a frequency */
  readonly left?: (hz: number) => number;
  readonly right?: (hz: number) => number;
  /** Hz, and mean squares of the line in left and right */
  readonly lines?: readonly (readonly [hz: number, left: number, right: number])[];
  readonly segments?: number;
}

export function lowOf({ left = () => 1e-12, right = left, lines = [], segments = 40 }: Quiet): StereoSpectrum {
  const density = (floor: (hz: number) => number, of: 1 | 2): Float64Array => {
    const bins = Float64Array.from({ length: 2049 }, (_, k) => floor(Math.max(1, k) * FINE));
    // as a Hann window spreads a line that lies on a bin
    for (const line of lines) {
      const at = Math.round(line[0] / FINE);
      bins[at] += (line[of] / FINE) * (2 / 3);
      bins[at - 1] += line[of] / FINE / 6;
      bins[at + 1] += line[of] / FINE / 6;
    }
    return bins;
  };
  return {
    sampleRateHz: 2048,
    size: 4096,
    binHz: FINE,
    segments,
    leftDensity: density(left, 1),
    rightDensity: density(right, 2),
    crossDensityRe: new Float64Array(2049).fill(3),
    crossDensityIm: new Float64Array(2049).fill(2),
    lineBandwidthHz: 1.5 * FINE,
  };
}

export function partOf(quiet: Quiet): QuietPart {
  const { left = () => 1e-12, right = left } = quiet;
  const wide = (floor: (hz: number) => number): Float64Array =>
    Float64Array.from({ length: 961 }, (_, k) => floor(Math.max(1, k) * COARSE));
  return { low: lowOf(quiet), wide: { binHz: COARSE, segments: 200, left: wide(left), right: wide(right) } };
}

export const quietOf = (
  state: QuietReading['state'],
  parts: readonly Quiet[],
  more: Partial<QuietReading> = {},
): QuietReading => ({ state, seconds: 20, parts: parts.map(partOf), clicks: 0, ...more });
