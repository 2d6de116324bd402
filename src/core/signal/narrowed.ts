/** A baseband made narrower, for low tones whose own harmonics would otherwise lie inside it. */
import { lowpassTaps } from './lowpass.ts';
import { BASEBAND_PASS_HZ, type Baseband } from './toneMixer.ts';
import { workArray } from './workArrays.ts';

/** Tones from here up keep their harmonics out of the baseband as it comes. */
const WIDE_ENOUGH_HZ = 900;

/** Half the width that stays usable around a tone whose neighbours lie `spacingHz` away, Hz. */
export const usableHalfWidthHz = (spacingHz: number): number =>
  spacingHz >= WIDE_ENOUGH_HZ ? BASEBAND_PASS_HZ : Math.min(BASEBAND_PASS_HZ, 0.25 * spacingHz);

/** Series are lent, see workArrays.ts. @param spacingHz to the nearest line that must stay out; a tone's own harmonics lie its frequency apart */
export function narrowed(z: Baseband, spacingHz: number = z.mixHz): Baseband {
  if (spacingHz >= WIDE_ENOUGH_HZ) return z;
  const passHz = usableHalfWidthHz(spacingHz);
  const stopHz = Math.min(0.49 * z.rateHz, 0.6 * spacingHz);
  const taps = lowpassTaps({ sampleRateHz: z.rateHz, passHz, stopHz, attenuationDb: 60 });
  const length = Math.max(0, z.length - taps.length + 1);
  return {
    rateHz: z.rateHz,
    mixHz: z.mixHz,
    startS: z.startS + (taps.length - 1) / 2 / z.rateHz,
    length,
    leftRe: filtered(z.leftRe, taps, length),
    leftIm: filtered(z.leftIm, taps, length),
    rightRe: filtered(z.rightRe, taps, length),
    rightIm: filtered(z.rightIm, taps, length),
  };
}

function filtered(x: Float64Array, taps: Float64Array, length: number): Float64Array {
  const y = workArray(length);
  for (let n = 0; n < length; n++) {
    let sum = 0;
    for (let k = 0; k < taps.length; k++) sum += taps[k] * x[n + k];
    y[n] = sum;
  }
  return y;
}
