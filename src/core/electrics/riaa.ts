/** Playback equalisation of records: the curve that a preamp must have. */

import { within } from '../units/bounds.ts';
import { type Complex, magnitude, reciprocal, times } from '../units/complex.ts';
import { ratioToDb } from '../units/units.ts';

/** Time constants, s. */
export const RIAA_TIME_CONSTANTS = { bass: 3180e-6, middle: 318e-6, treble: 75e-6, amendment: 7950e-6 } as const;

export interface RiaaOptions {
  /** the further high pass of 7950 µs (20 Hz), playback only; default false */
  readonly iecAmendment?: boolean;
}

/**
 * Playback equalisation, 1 at 0 Hz without the amendment.
 *
 *   H(s) = (1 + s·318 µs) / ((1 + s·3180 µs)(1 + s·75 µs)),  × s·7950 µs / (1 + s·7950 µs) with the amendment
 *
 * @param frequency Hz, 0–10⁶
 * @throws RangeError naming the argument, its value and its bounds
 * @source time constants: DIN 45544 and DIN 45547, second-hand; 7950 µs: BS 1928:1955
 * @checked test/standards/riaaCurve.test.ts
 */
export function riaaPlayback(frequency: number, options: RiaaOptions = {}): Complex {
  within('frequency', frequency, 0, 1e6, 'Hz');
  const w = 2 * Math.PI * frequency;
  const { bass, middle, treble, amendment } = RIAA_TIME_CONSTANTS;
  const poles = times({ re: 1, im: w * bass }, { re: 1, im: w * treble });
  const response = times({ re: 1, im: w * middle }, reciprocal(poles));
  if (options.iecAmendment !== true) return response;
  return times(response, times({ re: 0, im: w * amendment }, reciprocal({ re: 1, im: w * amendment })));
}

/** The same as a level re 1 kHz, dB (each curve at its own 1 kHz). `frequency` Hz, 0.01–10⁶. */
export function riaaPlaybackDb(frequency: number, options: RiaaOptions = {}): number {
  within('frequency', frequency, 0.01, 1e6, 'Hz');
  return ratioToDb(magnitude(riaaPlayback(frequency, options)) / magnitude(riaaPlayback(1000, options)));
}
