/** Which bands are read as a tone, and what of them. */
import type { Band } from '../record/band.ts';
import type { EstimatorKind, Passage, SideKnown } from './bandEstimator.ts';
import { LEAST_HARMONIC_S } from './harmonics.ts';
import { LEAST_FLUTTER_S, ToneEstimator, type ToneReading } from './toneEstimator.ts';
import type { Driven } from './toneSegment.ts';

export interface ToneSettings {
  /** Hz, as heard */
  readonly frequencyHz: number;
  readonly driven: Driven;
  readonly withFlutter: boolean;
  readonly withHarmonics: boolean;
}

/** below this a tone is too short for anything, s */
const LEAST_TONE_S = 0.5;

export const toneKind: EstimatorKind<ToneSettings, ToneReading> = {
  settings({ band, startS, endS }: Passage, side: SideKnown): ToneSettings | null {
    if (band === null || !isReadable(band, side.sampleRateHz)) return null;
    const frequencyHz = band.frequencyHz!;
    return {
      frequencyHz,
      driven: band.motion === 'left' ? 'left' : band.motion === 'right' ? 'right' : 'both',
      withFlutter: flutterBands(side).has(band.index),
      withHarmonics: frequencyHz >= 250 && frequencyHz <= 5000 && endS - startS >= LEAST_HARMONIC_S,
    };
  },
  begin: (sampleRateHz, settings) => new ToneEstimator(sampleRateHz, settings),
};

const MOVED: readonly Band['motion'][] = ['left', 'right', 'lateral', 'vertical'];

const isReadable = ({ signal, motion, frequencyHz, startS, endS }: Band, sampleRateHz: number): boolean =>
  signal === 'tone' &&
  frequencyHz !== null &&
  endS - startS >= LEAST_TONE_S &&
  MOVED.includes(motion) &&
  frequencyHz >= 20 &&
  frequencyHz < 0.48 * sampleRateHz;

/** Indices of the bands that wow and flutter may be read from: the speed tones where there are any, else all. */
function flutterBands({ bands, sampleRateHz, sheet, nominalSpeedToneHz }: SideKnown): Set<number> {
  const wanted = nominalSpeedToneHz === null ? [3150, 3000] : [nominalSpeedToneHz];
  const near = (hz: number | null | undefined, share: number): boolean =>
    hz !== null && hz !== undefined && wanted.some((w) => Math.abs(hz / w - 1) < share);
  const readable = bands.filter((b) => isReadable(b, sampleRateHz));
  const speed = readable.filter(
    (b) =>
      b.endS - b.startS > LEAST_FLUTTER_S + 0.5 &&
      (b.sheetBand === null ? near(b.frequencyHz, 0.15) : near(sheet?.bands[b.sheetBand]?.frequencyHz, 0.01)),
  );
  return new Set((speed.length > 0 ? speed : readable).map((b) => b.index));
}
