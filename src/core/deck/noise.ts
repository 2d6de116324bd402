/** Shapes of the deck's noises, each scaled by integrating its own spectrum, so that the level asked for is the level made. */
import { magnitude } from '../units/complex.ts';
import { highPassFirstOrder, lowPassFirstOrder, paired } from './filters.ts';
import { matchedFirstOrder, type Section, sectionsAt } from './realise.ts';
import { riaaPlayback } from './response.ts';

const tauOf = (hz: number) => 1 / (2 * Math.PI * hz);

/** Power falling 3 dB an octave from 8 Hz to 16 kHz, ±0.3 dB: poles every two octaves, zeros an octave above each. */
export function pinkSections(sampleRateHz: number): Section[] {
  const sections: Section[] = [];
  for (let pole = 8; pole <= 8192; pole *= 4) {
    sections.push(matchedFirstOrder(sampleRateHz, tauOf(pole), tauOf(2 * pole)));
  }
  return paired(sections);
}

/** Bearing noise: power falling as 1/f² above 12 Hz, between 5 and 300 Hz. */
export function rumbleSections(sampleRateHz: number): Section[] {
  return paired([
    highPassFirstOrder(sampleRateHz, 5),
    lowPassFirstOrder(sampleRateHz, 12),
    lowPassFirstOrder(sampleRateHz, 300),
    lowPassFirstOrder(sampleRateHz, 300),
  ]);
}

/**
 * rms of white noise of variance 1 after the sections and `weight`, between two frequencies.
 * @param weight amplitude at a frequency in Hz
 */
export function shapedRms(
  sections: readonly Section[],
  weight: (hz: number) => number,
  sampleRateHz: number,
  fromHz: number,
  toHz: number,
): number {
  const top = Math.min(toHz, sampleRateHz / 2);
  const STEPS = 2000;
  const ratio = top / fromHz;
  let power = 0;
  for (let i = 0; i < STEPS; i++) {
    const low = fromHz * ratio ** (i / STEPS);
    const high = fromHz * ratio ** ((i + 1) / STEPS);
    const hz = Math.sqrt(low * high);
    power += (magnitude(sectionsAt(sections, hz, sampleRateHz)) * weight(hz)) ** 2 * (high - low);
  }
  return Math.sqrt(power / (sampleRateHz / 2));
}

export const throughRiaa = (hz: number): number => magnitude(riaaPlayback(hz));
export const flatWeight = (): number => 1;
