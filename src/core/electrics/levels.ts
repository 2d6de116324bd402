/** From the stylus to the converter: output, gain, overload. V rms, dB, cm/s. */
import { within } from '../units/bounds.ts';
import { ratioToDb } from '../units/units.ts';

/** The velocity that outputs and headroom are referred to here, cm/s peak at 1 kHz. */
const REFERENCE_VELOCITY = 5;

/**
 * Output at 5 cm/s peak from an output quoted at another velocity.
 *
 * @param output V rms as quoted
 * @param velocity cm/s that it was quoted at
 * @param basis whether that velocity is a peak or an rms figure: 5 cm/s rms is 7.07 cm/s peak
 * @returns V rms
 */
export function outputAtReference(output: number, velocity: number, basis: 'peak' | 'rms'): number {
  within('output', output, 0, 10, 'V');
  within('velocity', velocity, 0.01, 1000, 'cm/s');
  const peak = basis === 'peak' ? velocity : velocity * Math.SQRT2;
  return (output * REFERENCE_VELOCITY) / peak;
}

/**
 * How far a signal lies under the level at which a stage overloads, dB, negative when it is above.
 *
 *   20 lg (V_max / (V_in · g))
 */
export function headroomDb(input: number, gainDb: number, maxOutput: number): number {
  within('input', input, 1e-9, 100, 'V');
  within('gain', gainDb, -60, 140, 'dB');
  within('maxOutput', maxOutput, 1e-6, 1000, 'V');
  return ratioToDb(maxOutput / input) - gainDb;
}

/** Gain that brings `input` to `wanted`, dB. V rms both. */
export function gainFor(input: number, wanted: number): number {
  within('input', input, 1e-9, 100, 'V');
  within('wanted', wanted, 1e-6, 1000, 'V');
  return ratioToDb(wanted / input);
}
