/**
 * A sweep through the arm's resonance, of a law that the record file states → both channels along it, complex.
 * A pilot tone beside it does not matter: it lies above what is kept.
 */
import type { StereoBlock } from '../capture/recording.ts';
import type { Complex } from '../units/complex.ts';
import type { BandEstimator, EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';
import { riaaDb } from './chainLevel.ts';
import { ARM, LowRate, type LowRateSignal } from './lowRate.ts';
import { placeOf, sweptResonance } from './lowSweepFit.ts';
import { findLowSweep, lawAt, lockIn, type SweepCut, type SweepPlace } from './lowSweepPlace.ts';

export interface LowSweepSettings {
  readonly cut: SweepCut;
  /** place in the record file */
  readonly sheetBand: number;
}

/** Both channels against the law's phase at one moment; complex peaks as captured. */
export interface LowSweepPoint {
  /** s since the sweep began */
  readonly s: number;
  /** Hz as the law has it, and its rate */
  readonly hz: number;
  readonly hzPerS: number;
  /** s, of the Hann window */
  readonly windowS: number;
  readonly left: Complex;
  readonly right: Complex;
  /** squared peaks of what else lies there, both channels together */
  readonly noise: number;
}

export interface LowSweepReading {
  readonly sheetBand: number;
  readonly cut: SweepCut;
  /** s from the passage's start, and as played; null where the law was not found */
  readonly place: { readonly startS: number; readonly lengthS: number } | null;
  readonly points: readonly LowSweepPoint[];
}

/** bandwidths beside the law at which what else is there is heard */
const ASIDE = [-6, -4.5, -3, 3, 4.5, 6];
const PLACED_AGAIN = 2;
const MOST_WINDOW_S = 2;
const LEAST_WINDOW_S = 0.25;
/** cycles in a window */
const LEAST_CYCLES = 4;

class LowSweepEstimator implements BandEstimator<LowSweepReading> {
  private readonly settings: LowSweepSettings;
  private readonly kept: LowRate;

  constructor(sampleRateHz: number, settings: LowSweepSettings) {
    this.settings = settings;
    this.kept = new LowRate(sampleRateHz, ARM);
  }

  push(block: StereoBlock): void {
    this.kept.push(block);
  }

  result(): LowSweepReading {
    const { cut, sheetBand } = this.settings;
    const signal = this.kept.signal();
    let place = findLowSweep(signal, cut);
    if (place === null) return { sheetBand, cut, place, points: [] };
    let points = readAt(signal, cut, place);
    // the phase tells better than the power where it stands: a law that is off would lose some of the level
    for (let round = 0; round < PLACED_AGAIN; round++) {
      const reading: LowSweepReading = { sheetBand, cut, place, points };
      place = placeOf(reading, sweptResonance(reading, 'lateral', true, riaaDb)) ?? place;
      points = readAt(signal, cut, place);
    }
    return { sheetBand, cut, place: { startS: place.startS + signal.delayS, lengthS: place.lengthS }, points };
  }

  end(): void {
    this.kept.end();
  }
}

/** Points a third of a window apart, as far as whole windows lie within the sweep. */
function readAt(signal: LowRateSignal, cut: SweepCut, place: SweepPlace): LowSweepPoint[] {
  const points: LowSweepPoint[] = [];
  const endS = place.startS + place.lengthS;
  for (let t = place.startS; t < endS; ) {
    const { hz, hzPerS } = lawAt(cut, place, t);
    const windowS = Math.min(
      MOST_WINDOW_S,
      Math.max(LEAST_WINDOW_S, LEAST_CYCLES / hz, 1 / Math.sqrt(Math.max(1e-6, Math.abs(hzPerS)))),
    );
    const inside = t - windowS / 2 >= place.startS && t + windowS / 2 <= endS;
    const heard = inside ? lockIn(signal, cut, place, t, windowS, 0) : null;
    if (heard !== null && hz < ARM.passHz) {
      const beside = ASIDE.flatMap((k) => {
        const asideHz = k / windowS;
        if (hz + asideHz < 1) return [];
        return lockIn(signal, cut, place, t, windowS, asideHz)?.power ?? [];
      }).sort((a, b) => a - b);
      const noise = beside.length === 0 ? 0 : beside[beside.length >> 1];
      const { left, right } = heard;
      points.push({ s: t - place.startS, hz, hzPerS, windowS, left, right, noise });
    }
    t += windowS / 3;
  }
  return points;
}

export const lowSweepKind: EstimatorKind<LowSweepSettings, LowSweepReading> = {
  settings({ signal, sheetBand }: Passage, { sheet }: SideKnown): LowSweepSettings | null {
    const cut = signal === 'low-sweep' && sheetBand !== undefined ? sheet?.bands[sheetBand] : undefined;
    if (cut?.fromHz === undefined || cut.toHz === undefined || sheetBand === undefined) return null;
    const { fromHz, toHz, law, durationS } = cut;
    return { sheetBand, cut: { fromHz, toHz, law: law ?? 'log', durationS: durationS ?? null } };
  },
  begin: (sampleRateHz, settings) => new LowSweepEstimator(sampleRateHz, settings),
};
