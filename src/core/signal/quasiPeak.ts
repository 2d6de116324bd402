/**
 * What a quasi-peak meter shows: half of the peak-to-peak value as its needle follows it, quick to rise, slow to fall.
 *
 *   clamp   c: how far the input went below zero, forgotten with 3 s;  y = max(0, x + c) runs from 0 to peak-to-peak
 *   store   u' = S y · min(1, e^((a − u/y)/w)) − u/τ      S = 13.7 /s, a = 0.615, w = 0.275, τ = 0.963 s
 *   needle  u / 2, of the input or of its inverse, whichever reads less: pulses of either sign read alike
 *
 * Scaled input gives scaled output. The constants are ours, fitted to the dynamics that the standard asks of a meter and not
 * to any circuit: a steady 4 Hz sine reads its zero-to-peak value, pulses and fall as in test/standards/quasiPeak.test.ts.
 *
 * @source IEC 60386:1972 as summarised in the abstract of AES6 (60 ms pulse, fall to 40 %); the other pulses from memory, not
 *   seen in a source. Deprecated since 1988 in favour of 2σ; for comparison with older data sheets only.
 * @checked test/standards/quasiPeak.test.ts
 */
import { workArray } from './workArrays.ts';

const CHARGE_PER_S = 13.7;
const KNEE = 0.615;
const WIDTH = 0.275;
const FALL_S = 0.963;
const CLAMP_S = 3;

/**
 * Course of the needle, in the input's unit; lent, see workArrays.ts.
 *
 * @param x the quantity with its mean at 0, already weighted
 * @param rateHz samples a second, 500 up: the charging is stepped sample by sample
 */
export function quasiPeak(x: Float64Array, rateHz: number): Float64Array {
  if (!(rateHz >= 500 && rateHz < Infinity)) throw new RangeError(`rateHz ${rateHz} must be at least 500`);
  const [upright, inverted] = [oneWay(x, rateHz, 1), oneWay(x, rateHz, -1)];
  return highest(upright) <= highest(inverted) ? upright : inverted;
}

const highest = (course: Float64Array): number => course.reduce((most, v) => Math.max(most, v), 0);

function oneWay(x: Float64Array, rateHz: number, sign: 1 | -1): Float64Array {
  const keepStore = Math.exp(-1 / (FALL_S * rateHz));
  const keepClamp = Math.exp(-1 / (CLAMP_S * rateHz));
  const charge = CHARGE_PER_S / rateHz;
  const course = workArray(x.length);
  let clamp = 0;
  let store = 0;
  for (let n = 0; n < x.length; n++) {
    clamp = Math.max(-sign * x[n], clamp * keepClamp);
    const y = sign * x[n] + clamp;
    store *= keepStore;
    if (y > 0) store += charge * y * Math.min(1, Math.exp((KNEE - store / y) / WIDTH));
    course[n] = store / 2;
  }
  return course;
}
