/** Which passages are read as sweeps, and at which pace they are expected to go. */
import type { EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';
import { SweepEstimator, type SweepReading, type SweepSettings } from './sweepEstimator.ts';

/** shorter tells no response, s */
const LEAST_S = 2;
/** of a sweep that nobody knows: three decades in 40 s */
const USUAL_PACE = { perHz: Math.log(1000) / 40, perS: 0 };

export const sweepKind: EstimatorKind<SweepSettings, SweepReading> = {
  settings({ signal, startS, endS, band }: Passage, { sheet }: SideKnown): SweepSettings | null {
    if (signal !== 'sweep' || band === null || endS - startS < LEAST_S) return null;
    const cut = band.sheetBand === null ? undefined : sheet?.bands[band.sheetBand];
    const from = cut?.fromHz ?? band.fromHz;
    const to = cut?.toHz ?? band.toHz;
    const rising = from === undefined || to === undefined || to > from;
    const lengthS = cut?.durationS ?? (Number.isFinite(endS) ? endS - startS : undefined);
    if (from === undefined || to === undefined || lengthS === undefined) return { rising, pace: USUAL_PACE };
    const linear = { perHz: 0, perS: Math.abs(to - from) / lengthS };
    const log = { perHz: Math.abs(Math.log(to / from)) / lengthS, perS: 0 };
    return { rising, pace: cut?.law === 'linear' ? linear : log };
  },
  begin: (sampleRateHz, settings) => new SweepEstimator(sampleRateHz, settings),
};
