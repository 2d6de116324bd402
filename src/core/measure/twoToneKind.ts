/** Which bands are read as two tones. */
import type { EstimatorKind } from './bandEstimator.ts';
import { TwoToneEstimator, type TwoToneReading, type TwoToneSettings } from './twoToneEstimator.ts';

/** below this there is no mean worth the name, s */
const LEAST_S = 1;

export const twoToneKind: EstimatorKind<TwoToneSettings, TwoToneReading> = {
  settings({ band, startS, endS }, { sampleRateHz, rpm }) {
    const heard = band?.frequenciesHz;
    if (band?.signal !== 'two-tone' || heard === undefined || endS - startS < LEAST_S) return null;
    const [f1, f2] = heard;
    if (!(f1 >= 20 && f2 > 2 * f1 && f2 < 0.45 * sampleRateHz)) return null;
    return { frequenciesHz: [f1, f2], turnS: 60 / rpm };
  },
  begin: (sampleRateHz, settings) => new TwoToneEstimator(sampleRateHz, settings),
};
