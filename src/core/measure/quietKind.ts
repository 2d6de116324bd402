/** Which passages are heard for noise: unmodulated groove, and the tip in the air. */
import type { EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';
import { QuietEstimator, type QuietReading, type QuietState } from './quietEstimator.ts';

export interface QuietSettings {
  readonly state: QuietState;
}

/** shorter tells no hum from another, s */
const LEAST_S = { groove: 2, 'tip-up': 0.8 } as const;
/** Hz; below it the mains and the surface cannot both be heard */
const LEAST_RATE_HZ = 8000;

export const quietKind: EstimatorKind<QuietSettings, QuietReading | null> = {
  settings({ signal, startS, endS }: Passage, { sampleRateHz }: SideKnown): QuietSettings | null {
    const state = signal === 'silent-groove' ? 'groove' : signal === 'tip-up' ? 'tip-up' : null;
    if (state === null || sampleRateHz < LEAST_RATE_HZ || endS - startS < LEAST_S[state]) return null;
    return { state };
  },
  begin: (sampleRateHz, { state }) => new QuietEstimator(sampleRateHz, state),
};
