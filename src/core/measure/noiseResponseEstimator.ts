/**
 * Noise that is the same in every third of an octave → level of both channels and the cross product between them, in thirds of an octave: the whole
 * rate for what lies high, an eighth to a sixteenth of it for what lies low.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { LEVEL_REACH, OctaveChain } from '../signal/octaveChain.ts';
import { type StereoSpectrum, WelchSpectrum } from '../signal/spectra.ts';
import type { BandEstimator, EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';
import type { SweepPoint } from './sweepEstimator.ts';

const POINTS = 8192;
/** the low part is heard at no less than this, Hz */
const LOW_RATE_HZ = 2800;
const LEAST_S = 4;
const LOWEST_HZ = 20;
const HIGHEST_HZ = 20_000;
/** bins of a third of an octave at least */
const LEAST_BINS = 6;

class NoiseResponseEstimator implements BandEstimator<readonly SweepPoint[]> {
  private readonly chain: OctaveChain;
  private readonly high: WelchSpectrum;
  private readonly low: WelchSpectrum;
  private readonly sampleRateHz: number;
  private readonly levels: number;
  private frames = 0;

  constructor(sampleRateHz: number) {
    this.sampleRateHz = sampleRateHz;
    this.levels = Math.max(1, 1 + Math.floor(Math.log2(sampleRateHz / LOW_RATE_HZ)));
    this.high = new WelchSpectrum(sampleRateHz, POINTS);
    this.low = new WelchSpectrum(sampleRateHz / 2 ** (this.levels - 1), POINTS / 2);
    this.chain = new OctaveChain(sampleRateHz, this.levels, (level, left, right, count) => {
      if (level === 0) this.high.push(left.subarray(0, count), right.subarray(0, count));
      if (level === this.levels - 1) this.low.push(left.subarray(0, count), right.subarray(0, count));
    });
  }

  push({ left, right, frames }: StereoBlock): void {
    this.chain.push(left, right, frames);
    this.frames += frames;
  }

  result(): SweepPoint[] {
    const [high, low] = [this.high.spectrum(), this.low.spectrum()];
    if (high.segments < 4 || low.segments < 2) return [];
    const lowReach = (LEVEL_REACH * low.sampleRateHz) / 2 ** (1 / 6);
    const points: SweepPoint[] = [];
    for (let k = -17; k <= 13; k++) {
      const hz = 1000 * 2 ** (k / 3);
      if (hz < LOWEST_HZ * 0.98 || hz > Math.min(HIGHEST_HZ * 1.02, 0.4 * this.sampleRateHz)) continue;
      const point = thirdOf(hz < lowReach ? low : high, hz, this.frames / this.sampleRateHz);
      if (point !== null) points.push(point);
    }
    return points;
  }

  end(): void {
    this.chain.end();
  }
}

function thirdOf(spectrum: StereoSpectrum, hz: number, seconds: number): SweepPoint | null {
  const { binHz, leftDensity, rightDensity, crossDensityRe, crossDensityIm } = spectrum;
  const [from, to] = [hz / 2 ** (1 / 6) / binHz, (hz * 2 ** (1 / 6)) / binHz];
  if (to - from < LEAST_BINS) return null;
  const sum = (of: Float64Array): number => {
    let total = 0;
    // bins stand for half a bin to either side
    for (let k = Math.floor(from); k <= Math.ceil(to); k++) {
      const share = Math.min(k + 0.5, to) - Math.max(k - 0.5, from);
      if (share > 0) total += share * of[k];
    }
    return 2 * total * binHz;
  };
  const left = sum(leftDensity);
  if (!(left > 0)) return null;
  return {
    hz,
    left,
    right: sum(rightDensity),
    re: sum(crossDensityRe),
    // the spectrum holds left · conj(right)
    im: -sum(crossDensityIm),
    // of a power over a bandwidth B and a time T: 1/√(BT); overlapped windows lose little of it
    spreadDb: 4.34 / Math.sqrt((to - from) * binHz * seconds * 0.9),
    noise: 0,
    spectra: 1,
  };
}

export const noiseResponseKind: EstimatorKind<Record<string, never>, readonly SweepPoint[]> = {
  settings: ({ signal, startS, endS }: Passage, { sampleRateHz }: SideKnown) =>
    signal === 'noise' && endS - startS >= LEAST_S && sampleRateHz >= 8000 ? {} : null,
  begin: (sampleRateHz) => new NoiseResponseEstimator(sampleRateHz),
};
